// SPDX-License-Identifier: MIT
#include "signal/tone_equations.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Eigen::Index shapes = 4; // 1, t, G, dG / d ln time
constexpr Eigen::Index pairs = shapes * (shapes + 1) / 2;
constexpr double taylor_limit = 0.3;

constexpr std::array<std::array<Eigen::Index, shapes>, shapes> pair_of{
    {{0, 1, 2, 3}, {1, 4, 5, 6}, {2, 5, 7, 8}, {3, 6, 8, 9}}};

/// exp(j angle); Taylor's first terms are exact to 1e-11 below the limit.
Complex turned(double angle)
{
    if (std::abs(angle) > taylor_limit) return std::polar(1.0, angle);
    constexpr std::array inverse{1.0 / 6.0, 1.0 / 20.0, 1.0 / 42.0, 1.0 / 12.0, 1.0 / 30.0, 1.0 / 56.0};
    const double a2 = angle * angle;
    return {1.0 - 0.5 * a2 * (1.0 - a2 * inverse[3] * (1.0 - a2 * inverse[4] * (1.0 - a2 * inverse[5]))),
            angle * (1.0 - a2 * inverse[0] * (1.0 - a2 * inverse[1] * (1.0 - a2 * inverse[2])))};
}

/// Sums over the values: products of main tone p, twin q and sound y, times products of the shapes.
struct Moments {
    enum Tones : Eigen::Index { pp, qq, pq_re, pq_im };
    enum Sound : Eigen::Index { py_re, py_im, qy_re, qy_im };
    Eigen::Matrix<double, pairs, 4> tones;
    Eigen::Matrix<double, shapes, 4> sound;

    [[nodiscard]] Complex cross(Eigen::Index pair) const { return {tones(pair, pq_re), tones(pair, pq_im)}; }
    [[nodiscard]] Complex main_sound(Eigen::Index shape) const
    {
        return {sound(shape, py_re), sound(shape, py_im)};
    }
    [[nodiscard]] Complex twin_sound(Eigen::Index shape) const
    {
        return {sound(shape, qy_re), sound(shape, qy_im)};
    }
};

/// One unknown's derivative: a shape times (main p + twin q).
struct Column {
    std::size_t shape = 0;
    Complex main, twin;
};

double product(const Moments& m, const Column& a, const Column& b)
{
    const Eigen::Index pair = pair_of[a.shape][b.shape];
    const Complex cross = m.cross(pair);
    return (std::conj(a.main) * b.main).real() * m.tones(pair, Moments::pp) +
           (std::conj(a.twin) * b.twin).real() * m.tones(pair, Moments::qq) +
           (std::conj(a.main) * b.twin * cross).real() +
           (std::conj(a.twin) * b.main * std::conj(cross)).real();
}

/// The products of the shapes at each value, and how far G goes from there to the next.
struct Shapes {
    Eigen::Matrix<double, Eigen::Dynamic, pairs> products;
    Eigen::ArrayXd glide_steps;
};

Shapes shapes_of(const ToneValues& v, double time_s)
{
    const Eigen::Index count = v.real.size();
    Shapes s{.products{count, pairs}, .glide_steps = Eigen::ArrayXd(count)};
    const double fade = std::exp(-v.hop_s / time_s);
    double rest = std::exp(-v.first_s / time_s);
    for (Eigen::Index i = 0; i < count; ++i, rest *= fade) {
        const double t = v.first_s + v.hop_s * static_cast<double>(i);
        s.products(i, 1) = t;
        s.products(i, 2) = time_s * (1.0 - rest);
        s.products(i, 3) = s.products(i, 2) - t * rest;
        s.glide_steps(i) = time_s * rest * (1.0 - fade);
    }
    s.products.col(0).setOnes();
    for (std::size_t a = 1; a < shapes; ++a)
        for (std::size_t b = a; b < shapes; ++b)
            s.products.col(pair_of[a][b]).array() =
                s.products.col(pair_of[0][a]).array() * s.products.col(pair_of[0][b]).array();
    return s;
}

/// A tone at each value.
struct Tone {
    Eigen::ArrayXd real, imaginary;
};

/// Turns and fades by `step` from value to value; a glide of `glide_rad` for one second of G turns it
/// besides.
Tone tone_of(Complex now, Complex step, double glide_rad, const Eigen::ArrayXd& glide_steps)
{
    Tone tone{Eigen::ArrayXd(glide_steps.size()), Eigen::ArrayXd(glide_steps.size())};
    for (Eigen::Index i = 0; i < glide_steps.size(); ++i) {
        tone.real(i) = now.real(), tone.imaginary(i) = now.imag();
        now *= step * turned(glide_rad * glide_steps(i));
    }
    return tone;
}

Moments sum_moments(const ToneValues& v, const OwnTone& own, const SharedTone& shared, bool with_twin)
{
    const double time_s = std::exp(shared.log_glide_time);
    const double glide_rad = two_pi * own.frequency_hz * shared.glide_amount;
    const Complex step = std::polar(std::exp(-own.decay_rate * v.hop_s),
                                    two_pi * (own.frequency_hz - v.reference_hz) * v.hop_s);
    const Shapes at = shapes_of(v, time_s);
    const Tone p = tone_of({1.0, 0.0}, step, glide_rad, at.glide_steps);

    // As many columns as there are tones: the rest of the moments stays zero.
    const Eigen::Index tone_columns = with_twin ? 4 : 1, sound_columns = with_twin ? 4 : 2;
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic> tones(v.real.size(), tone_columns),
        sound(v.real.size(), sound_columns);
    tones.col(Moments::pp).array() = p.real.square() + p.imaginary.square();
    sound.col(Moments::py_re).array() = p.real * v.real + p.imaginary * v.imaginary;
    sound.col(Moments::py_im).array() = p.real * v.imaginary - p.imaginary * v.real;
    if (with_twin) {
        const double slower = (1.0 - std::exp(shared.log_decay_ratio)) * own.decay_rate;
        const double beat_rad = two_pi * own.frequency_hz * shared.split;
        const double glided_s = v.first_s + shared.glide_amount * at.products(0, pair_of[0][2]);
        const Tone q = tone_of(std::polar(std::exp(slower * v.first_s), beat_rad * glided_s),
                               step * std::polar(std::exp(slower * v.hop_s), beat_rad * v.hop_s),
                               glide_rad * (1.0 + shared.split), at.glide_steps);
        tones.col(Moments::qq).array() = q.real.square() + q.imaginary.square();
        tones.col(Moments::pq_re).array() = p.real * q.real + p.imaginary * q.imaginary;
        tones.col(Moments::pq_im).array() = p.real * q.imaginary - p.imaginary * q.real;
        sound.col(Moments::qy_re).array() = q.real * v.real + q.imaginary * v.imaginary;
        sound.col(Moments::qy_im).array() = q.real * v.imaginary - q.imaginary * v.real;
    }
    Moments m{.tones = decltype(m.tones)::Zero(), .sound = decltype(m.sound)::Zero()};
    m.tones.leftCols(tone_columns) = at.products.transpose().lazyProduct(tones);
    m.sound.leftCols(sound_columns) = at.products.leftCols<shapes>().transpose().lazyProduct(sound);
    return m;
}

std::array<Column, unknown::count> columns_of(const OwnTone& own, const SharedTone& shared)
{
    const double ratio = std::exp(shared.log_decay_ratio);
    const Complex i{0.0, 1.0}, turn = i * two_pi, r = own.twin;
    const Complex twin_turn = (1.0 + shared.split) * r;
    const double f = own.frequency_hz, a = shared.glide_amount;
    return {{{0, 1.0, r},
             {0, i, i * r},
             {1, -1.0, -ratio * r},
             {0, 0.0, 1.0},
             {0, 0.0, i},
             {1, turn, turn * twin_turn},
             {2, turn * f, turn * f * twin_turn},
             {3, turn * f * a, turn * f * a * twin_turn},
             {1, 0.0, turn * f * r},
             {1, 0.0, -own.decay_rate * ratio * r}}};
}

} // namespace

ToneValues tone_values(const TonePartial& partial, double start_s)
{
    const Baseband& band = *partial.band;
    // Half-window steps keep nearly all that quarter-window steps tell and halve the work.
    const std::size_t every = band.values.size() >= 24 ? 2 : 1;
    ToneValues v{.number = partial.number,
                 .reference_hz = band.reference_hz,
                 .first_s = band.first_s - start_s,
                 .hop_s = band.hop_s * static_cast<double>(every),
                 .noise_power = partial.noise_level * partial.noise_level,
                 .correlated = std::max(1.0, band.correlated_values / static_cast<double>(every))};
    const auto count = static_cast<Eigen::Index>((band.values.size() + every - 1) / every);
    v.real.resize(count), v.imaginary.resize(count);
    for (Eigen::Index i = 0; i < count; ++i) {
        const Complex value = band.values[static_cast<std::size_t>(i) * every];
        v.real(i) = value.real(), v.imaginary(i) = value.imag();
        v.energy += std::norm(value);
    }
    return v;
}

ToneEquations tone_equations(const ToneValues& values, const OwnTone& own, const SharedTone& shared,
                             bool with_twin)
{
    const Moments m = sum_moments(values, own, shared, with_twin);
    const auto columns = columns_of(own, shared);
    const auto against_sound = [&](const Column& c) {
        const auto shape = static_cast<Eigen::Index>(c.shape);
        return std::conj(c.main) * m.main_sound(shape) + std::conj(c.twin) * m.twin_sound(shape);
    };
    ToneEquations equations;
    const double model_energy = product(m, columns[0], columns[0]);
    equations.amplitude = against_sound(columns[0]) / model_energy;
    const double power = std::norm(equations.amplitude);
    equations.residual_energy = std::max(0.0, values.energy - power * model_energy);

    const double unit = 2.0 / (values.noise_power * values.correlated);
    for (std::size_t a = 0; a < columns.size(); ++a) {
        const auto row = static_cast<Eigen::Index>(a);
        for (std::size_t b = 0; b <= a; ++b) {
            const auto column = static_cast<Eigen::Index>(b);
            const double entry = unit * power * product(m, columns[a], columns[b]);
            equations.matrix(row, column) = equations.matrix(column, row) = entry;
        }
        equations.pull(row) = unit * (std::conj(equations.amplitude) * against_sound(columns[a])).real() -
                              equations.matrix(row, 0);
    }
    return equations;
}

} // namespace harpkeep
