// SPDX-License-Identifier: MIT
#include "signal/partial_fit.hpp"

#include "base/expects.hpp"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double weight_decay_share = 0.7; // see the header
constexpr std::size_t least_values = 5;
constexpr double faintest_snr = 4.0; // spectral amplitude over its noise, under which a peak may be chance
constexpr double decay_shows_at_snr = 10.0; // from there on the band itself says how fast it dies
constexpr double threshold_growth = 20.0;   // measured, see the test of the header's accuracy
constexpr double two_pi = 2.0 * std::numbers::pi;

using Values = std::vector<std::complex<double>>;

/// Centroid of the energy of exp(-2 alpha t) over [0, length], as a part of length; x = alpha * length.
double centroid_share(double x)
{
    if (std::abs(x) < 1e-4) return 0.5 - x / 6.0;
    return 1.0 / (2.0 * x) - 1.0 / std::expm1(2.0 * x);
}

/// The alpha whose energy has the centroid measured; at most what the length can show.
double decay_from_centroid(double share, double length_s)
{
    double low = -2.0, high = 200.0; // x = alpha * length
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (centroid_share(middle) > share ? low : high) = middle;
    }
    return 0.5 * (low + high) / length_s;
}

/// Decay rate of a band in white noise, from the centroid of its energy in a window that shrinks to five
/// times the decay time found.
double decay_rate_of(const Values& y, double hop_s, double noise_power)
{
    double alpha = 0.0;
    std::size_t count = y.size();
    for (int round = 0; round < 8; ++round) {
        double energy = 0.0, moment = 0.0;
        for (std::size_t i = 0; i < count; ++i) {
            const double power = std::norm(y[i]) - noise_power;
            energy += power;
            moment += power * (static_cast<double>(i) + 0.5);
        }
        if (!(energy > 0.0)) return alpha;
        const double share = std::clamp(moment / energy / static_cast<double>(count), 0.005, 0.9);
        alpha = decay_from_centroid(share, hop_s * static_cast<double>(count));
        const double wanted = alpha > 0.0 ? 2.5 / (alpha * hop_s) : static_cast<double>(y.size());
        const auto next = static_cast<std::size_t>(
            std::clamp(wanted, static_cast<double>(least_values), static_cast<double>(y.size())));
        if (next == count) break;
        count = next;
    }
    return alpha;
}

/// Amplitude over noise while the partial is expected to ring.
double snr_at_start(const Baseband& band, const PartialSearch& search)
{
    const auto ringing = static_cast<std::size_t>(1.0 / (search.typical_decay_rate * band.hop_s));
    const std::size_t count = std::min(band.values.size(), least_values + ringing);
    double power = 0.0;
    for (std::size_t i = 0; i < count; ++i) power += std::norm(band.values[i]);
    return std::sqrt(power / static_cast<double>(count)) / search.noise_level;
}

/// Between the decay rate expected and the one found: the clearer the partial, the nearer to what was found.
double led_by(double expected, double found, double clearness)
{
    const double trust = clearness * clearness / (1.0 + clearness * clearness);
    return std::exp(trust * std::log(std::max(found, 0.02)) + (1.0 - trust) * std::log(expected));
}

/// The weighted spectrum of a band and its slopes at one frequency.
struct SpectrumPoint {
    std::complex<double> value;
    double slope = 0.0;     ///< of ln |S|^2
    double curvature = 0.0; ///< of ln |S|^2
};

SpectrumPoint spectrum_at(const Values& weighted, double turn)
{
    std::complex<double> s0{}, s1{}, s2{};
    const auto step = std::polar(1.0, -turn);
    std::complex<double> rotation{1.0, 0.0};
    for (std::size_t i = 0; i < weighted.size(); ++i) {
        const auto value = weighted[i] * rotation;
        const double t = static_cast<double>(i);
        s0 += value, s1 += t * value, s2 += t * t * value;
        rotation *= step;
    }
    // S' = -j S1, S'' = -S2
    const auto first = std::complex<double>(0.0, -1.0) * s1 / s0;
    const auto second = -s2 / s0;
    return {s0, 2.0 * first.real(), 2.0 * (second.real() - (first * first).real())};
}

/// Climbs to the maximum of the spectrum next to `turn`; `grid` bounds a single step.
double climb(const Values& weighted, double turn, double grid)
{
    for (int i = 0; i < 20; ++i) {
        const auto point = spectrum_at(weighted, turn);
        const double move =
            point.curvature < 0.0 ? -point.slope / point.curvature : (point.slope > 0.0 ? grid : -grid);
        turn += std::clamp(move, -grid, grid);
        if (std::abs(move) < 1e-10 * grid) break;
    }
    return turn;
}

/// exp(j turn i) for i = 0, 1, ...
struct Rotation {
    Eigen::ArrayXd real, imaginary;

    Rotation(double turn, std::size_t count)
        : real(static_cast<Eigen::Index>(count)), imaginary(static_cast<Eigen::Index>(count))
    {
        std::complex<double> now{1.0, 0.0};
        const auto step = std::polar(1.0, turn);
        for (Eigen::Index i = 0; i < real.size(); ++i, now *= step)
            real(i) = now.real(), imaginary(i) = now.imag();
    }

    void times(const Rotation& other)
    {
        const Eigen::ArrayXd product = real * other.real - imaginary * other.imaginary;
        imaginary = real * other.imaginary + imaginary * other.real;
        real = product;
    }
};

/// The turn per value at which the spectrum is strongest within +-reach of `middle`.
std::optional<double> strongest_turn(const Values& weighted, double effective_values, double middle,
                                     double reach)
{
    const double grid = std::numbers::pi / (2.0 * effective_values);
    // All values turned back together, by one grid step after the other.
    Rotation turned(reach - middle, weighted.size());
    for (std::size_t i = 0; i < weighted.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(i);
        const auto value = weighted[i] * std::complex<double>{turned.real(at), turned.imaginary(at)};
        turned.real(at) = value.real(), turned.imaginary(at) = value.imag();
    }
    const Rotation step(-grid, weighted.size());
    double best = middle, most = -1.0;
    for (double turn = middle - reach; turn <= middle + reach; turn += grid, turned.times(step)) {
        const double power = std::norm(std::complex<double>{turned.real.sum(), turned.imaginary.sum()});
        if (power > most) most = power, best = turn;
    }
    best = climb(weighted, best, grid);
    if (std::abs(best - middle) > 1.2 * reach + grid) return std::nullopt;
    return best;
}

/// A band with the weights of one decay.
struct WeightedBand {
    Values values;   ///< glide taken off
    Values weighted; ///< times weight
    std::vector<double> weight, envelope;
    double weight_square = 0.0;
    double matched = 0.0; ///< sum of weight times envelope
    double effective_values = 0.0;
};

WeightedBand weigh(Values values, double fall_per_value)
{
    WeightedBand band{.values = std::move(values)};
    double weight_sum = 0.0;
    for (std::size_t i = 0; i < band.values.size(); ++i) {
        const double t = static_cast<double>(i);
        band.weight.push_back(std::exp(-weight_decay_share * fall_per_value * t));
        band.envelope.push_back(std::exp(-fall_per_value * t));
        band.weighted.push_back(band.weight[i] * band.values[i]);
        weight_sum += band.weight[i];
        band.weight_square += band.weight[i] * band.weight[i];
        band.matched += band.weight[i] * band.envelope[i];
    }
    band.effective_values = weight_sum * weight_sum / band.weight_square;
    return band;
}

/// What the residuals really do to the estimating sum: their own covariance over a quarter of the window.
double variance_of_sum(const std::vector<double>& pull, double least_lags, double effective_values)
{
    double whole = 0.0;
    const auto lags = static_cast<std::size_t>(std::max(least_lags, 0.25 * effective_values));
    for (std::size_t lag = 0; lag < lags && lag < pull.size(); ++lag) {
        const double taper = 1.0 - static_cast<double>(lag) / static_cast<double>(lags);
        double sum = 0.0;
        for (std::size_t i = 0; i + lag < pull.size(); ++i) sum += pull[i] * pull[i + lag];
        whole += (lag == 0 ? 1.0 : 2.0) * taper * sum;
    }
    return whole;
}

/// Everything but the frequency, at the frequency found.
std::optional<PartialFit> describe(const Baseband& band, const WeightedBand& w, double turn, double alpha,
                                   double noise_level)
{
    const double noise_power = noise_level * noise_level, correlated = band.correlated_values;
    const auto peak = spectrum_at(w.weighted, turn).value;
    const double faintness = noise_power * w.weight_square * correlated / std::norm(peak);
    if (faintness * faintest_snr * faintest_snr > 1.0) return std::nullopt;
    const std::size_t n = w.values.size();
    const double level = std::abs(peak) / w.matched;

    double first = 0.0;
    for (std::size_t i = 0; i < n; ++i) first += w.weight[i] * w.envelope[i] * static_cast<double>(i);
    const double middle = first / w.matched;
    // The estimate solves sum g t~ Im(y e^-j(phase)) = 0: its variance is that of the sum over its slope
    // squared.
    double slope = 0.0, noise_sum = 0.0, residual_power = 0.0;
    std::vector<double> pull(n), imaginary(n);
    const auto step = std::polar(1.0, -turn);
    auto rotation = std::polar(1.0, -std::arg(peak));
    for (std::size_t i = 0; i < n; ++i) {
        const double t = static_cast<double>(i) - middle, weight2 = w.weight[i] * w.weight[i];
        const auto turned = w.values[i] * rotation;
        rotation *= step;
        const double expected = level * w.envelope[i];
        imaginary[i] = turned.imag();
        pull[i] = w.weight[i] * t * turned.imag();
        slope += w.weight[i] * t * t * expected;
        noise_sum += weight2 * t * t * 0.5 * noise_power * correlated;
        residual_power += weight2 * std::norm(turned - expected) / w.weight_square;
    }
    PartialFit fit{.frequency_hz = band.reference_hz + turn / (two_pi * band.hop_s),
                   .decay_rate = alpha,
                   .level = level,
                   .noise_level = noise_level,
                   .residual_level = std::sqrt(residual_power)};
    const double scale = 1.0 / (slope * slope) / std::pow(two_pi * band.hop_s, 2);
    // Near the threshold the maximum strays farther than its curvature says, and its height flatters it.
    fit.noise_variance_hz2 = noise_sum * scale * (1.0 + threshold_growth * faintness);
    const double whole = variance_of_sum(pull, correlated, w.effective_values);
    fit.model_variance_hz2 = std::max(0.0, whole - noise_sum) * scale;

    const double effective_power = std::max(noise_power, residual_power);
    for (std::size_t i = 0; i < n; ++i) {
        const double expected = level * w.envelope[i];
        fit.times_s.push_back(band.time_s(i));
        fit.weights.push_back(2.0 * level * w.weight[i] * expected / effective_power / correlated);
        fit.phase_rad.push_back(imaginary[i] / expected);
        fit.information += fit.weights.back();
    }
    return fit;
}

} // namespace

std::optional<PartialFit> fit_partial(const Baseband& band, const PartialSearch& search)
{
    HARPKEEP_EXPECTS(search.noise_level > 0.0 && search.reach_hz > 0.0);
    const Values& y = band.values;
    if (y.size() < least_values) return std::nullopt;
    double alpha = decay_rate_of(y, band.hop_s, search.noise_level * search.noise_level);
    if (search.typical_decay_rate > 0.0)
        alpha = led_by(search.typical_decay_rate, alpha, snr_at_start(band, search) / decay_shows_at_snr);
    const WeightedBand weighted = weigh(y, std::max(alpha, 0.0) * band.hop_s);
    const auto turn = strongest_turn(weighted.weighted, weighted.effective_values, 0.0,
                                     two_pi * search.reach_hz * band.hop_s);
    if (!turn) return std::nullopt;
    return describe(band, weighted, *turn, alpha, search.noise_level);
}

std::optional<PartialFit> refit_partial(const Baseband& band, const PartialFit& before, double expected_hz,
                                        double reach_hz, const PitchGlide& glide)
{
    Values y(band.values.size());
    std::vector<double> taken_off_rad(y.size());
    for (std::size_t i = 0; i < y.size(); ++i) {
        taken_off_rad[i] = two_pi * glide.turns(expected_hz, band.time_s(i));
        y[i] = band.values[i] * std::polar(1.0, -taken_off_rad[i]);
    }
    const WeightedBand weighted = weigh(std::move(y), std::max(before.decay_rate, 0.0) * band.hop_s);
    const double middle = two_pi * (expected_hz - band.reference_hz) * band.hop_s;
    const double reach = two_pi * (reach_hz * band.hop_s + 1.0 / weighted.effective_values);
    const auto turn = strongest_turn(weighted.weighted, weighted.effective_values, middle, reach);
    if (!turn) return std::nullopt;
    auto fit = describe(band, weighted, *turn, before.decay_rate, before.noise_level);
    if (!fit) return std::nullopt;
    for (std::size_t i = 0; i < taken_off_rad.size(); ++i) fit->phase_rad[i] += taken_off_rad[i];
    fit->taken_off = glide;
    return fit;
}

} // namespace harpkeep
