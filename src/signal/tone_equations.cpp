// SPDX-License-Identifier: MIT
#include "signal/tone_equations.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr std::size_t shapes = 4; // 1, t, G, dG / d ln time
constexpr std::size_t pairs = shapes * (shapes + 1) / 2;
constexpr double taylor_limit = 0.3;

constexpr std::array<std::array<std::size_t, shapes>, shapes> pair_of{
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

/// Sums over the values: main tone p, twin q, sound y, with products of the shapes.
struct Moments {
    std::array<double, pairs> pp{}, qq{}, pq_re{}, pq_im{};
    std::array<double, shapes> py_re{}, py_im{}, qy_re{}, qy_im{};

    [[nodiscard]] Complex pq(std::size_t pair) const { return {pq_re[pair], pq_im[pair]}; }
};

/// One unknown's derivative: a shape times (main p + twin q).
struct Column {
    std::size_t shape = 0;
    Complex main, twin;
};

double product(const Moments& m, const Column& a, const Column& b)
{
    const std::size_t pair = pair_of[a.shape][b.shape];
    const Complex cross = m.pq(pair);
    return (std::conj(a.main) * b.main).real() * m.pp[pair] +
           (std::conj(a.twin) * b.twin).real() * m.qq[pair] + (std::conj(a.main) * b.twin * cross).real() +
           (std::conj(a.twin) * b.main * std::conj(cross)).real();
}

/// Steps a tone from one value to the next.
struct Stepper {
    Complex now, step;
    double glide_rad = 0.0; ///< for one second of G

    void advance(double glide_step) { now *= step * turned(glide_rad * glide_step); }
};

template <bool with_twin>
Moments sum_moments(const ToneValues& v, const OwnTone& own, const SharedTone& shared)
{
    const double time_s = std::exp(shared.log_glide_time);
    const double ratio = std::exp(shared.log_decay_ratio);
    const double slower = (1.0 - ratio) * own.decay_rate;
    const double beat_rad = two_pi * own.frequency_hz * shared.split;
    const double glide_rad = two_pi * own.frequency_hz * shared.glide_amount;
    const Complex step = std::polar(std::exp(-own.decay_rate * v.hop_s),
                                    two_pi * (own.frequency_hz - v.reference_hz) * v.hop_s);
    const double fade = std::exp(-v.hop_s / time_s);
    double rest = std::exp(-v.first_s / time_s);

    Stepper p{Complex{1.0, 0.0}, step, glide_rad};
    Stepper q{std::polar(std::exp(slower * v.first_s),
                         beat_rad * (v.first_s + shared.glide_amount * time_s * (1.0 - rest))),
              step * std::polar(std::exp(slower * v.hop_s), beat_rad * v.hop_s),
              glide_rad * (1.0 + shared.split)};
    Moments m;
    for (std::size_t i = 0; i < v.values.size(); ++i) {
        const double t = v.first_s + v.hop_s * static_cast<double>(i);
        const double g = time_s * (1.0 - rest), h = g - t * rest;
        const std::array<double, pairs> product{1.0, t, g, h, t * t, t * g, t * h, g * g, g * h, h * h};
        const std::array<double, shapes> shape{1.0, t, g, h};
        const double pr = p.now.real(), pi = p.now.imag(), yr = v.values[i].real(), yi = v.values[i].imag();
        const double pp = pr * pr + pi * pi, py_re = pr * yr + pi * yi, py_im = pr * yi - pi * yr;
        for (std::size_t k = 0; k < pairs; ++k) m.pp[k] += product[k] * pp;
        for (std::size_t k = 0; k < shapes; ++k)
            m.py_re[k] += shape[k] * py_re, m.py_im[k] += shape[k] * py_im;
        if constexpr (with_twin) {
            const double qr = q.now.real(), qi = q.now.imag();
            const double qq = qr * qr + qi * qi, pq_re = pr * qr + pi * qi, pq_im = pr * qi - pi * qr;
            const double qy_re = qr * yr + qi * yi, qy_im = qr * yi - qi * yr;
            for (std::size_t k = 0; k < pairs; ++k)
                m.qq[k] += product[k] * qq, m.pq_re[k] += product[k] * pq_re,
                    m.pq_im[k] += product[k] * pq_im;
            for (std::size_t k = 0; k < shapes; ++k)
                m.qy_re[k] += shape[k] * qy_re, m.qy_im[k] += shape[k] * qy_im;
        }
        const double glide_step = time_s * rest * (1.0 - fade);
        rest *= fade;
        p.advance(glide_step);
        if constexpr (with_twin) q.advance(glide_step);
    }
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
    for (std::size_t i = 0; i < band.values.size(); i += every) {
        v.values.push_back(band.values[i]);
        v.energy += std::norm(band.values[i]);
    }
    return v;
}

ToneEquations tone_equations(const ToneValues& values, const OwnTone& own, const SharedTone& shared,
                             bool with_twin)
{
    const Moments m =
        with_twin ? sum_moments<true>(values, own, shared) : sum_moments<false>(values, own, shared);
    const auto columns = columns_of(own, shared);
    const auto against_sound = [&](const Column& c) {
        return std::conj(c.main) * Complex{m.py_re[c.shape], m.py_im[c.shape]} +
               std::conj(c.twin) * Complex{m.qy_re[c.shape], m.qy_im[c.shape]};
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
