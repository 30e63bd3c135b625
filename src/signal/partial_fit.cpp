// SPDX-License-Identifier: MIT
#include "signal/partial_fit.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double weight_decay_share = 0.7; // see the header
constexpr std::size_t least_values = 8;
constexpr double faintest_snr = 4.0; // spectral amplitude over its noise, under which a peak may be chance
constexpr double decay_shows_at_snr = 10.0; // from there on the band itself says how fast it dies
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

/// The turn per value at which the spectrum is strongest within +-reach.
std::optional<double> strongest_turn(const Values& weighted, double effective_values, double reach)
{
    const double grid = std::numbers::pi / (2.0 * effective_values);
    double best = 0.0, most = -1.0;
    for (double turn = -reach; turn <= reach; turn += grid) {
        std::complex<double> sum{};
        const auto step = std::polar(1.0, -turn);
        std::complex<double> rotation{1.0, 0.0};
        for (const auto& value : weighted) {
            sum += value * rotation;
            rotation *= step;
        }
        if (std::norm(sum) > most) most = std::norm(sum), best = turn;
    }
    for (int i = 0; i < 20; ++i) {
        const auto point = spectrum_at(weighted, best);
        const double move =
            point.curvature < 0.0 ? -point.slope / point.curvature : (point.slope > 0.0 ? grid : -grid);
        best += std::clamp(move, -grid, grid);
        if (std::abs(move) < 1e-13 * (1.0 + std::abs(best))) break;
    }
    if (std::abs(best) > 1.2 * reach + grid) return std::nullopt;
    return best;
}

} // namespace

std::optional<PartialFit> fit_partial(const Baseband& band, const PartialSearch& search)
{
    HARPKEEP_EXPECTS(search.noise_level > 0.0 && search.reach_hz > 0.0);
    const Values& y = band.values;
    if (y.size() < least_values) return std::nullopt;
    const double noise_power = search.noise_level * search.noise_level;
    double alpha = decay_rate_of(y, band.hop_s, noise_power);
    if (search.typical_decay_rate > 0.0)
        alpha = led_by(search.typical_decay_rate, alpha, snr_at_start(band, search) / decay_shows_at_snr);
    const double fall = std::clamp(alpha, 0.0, 1e9) * band.hop_s;

    Values weighted(y.size());
    std::vector<double> weight(y.size()), envelope(y.size());
    double weight_sum = 0.0, weight_square = 0.0, matched = 0.0;
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double t = static_cast<double>(i);
        weight[i] = std::exp(-weight_decay_share * fall * t);
        envelope[i] = std::exp(-fall * t);
        weighted[i] = weight[i] * y[i];
        weight_sum += weight[i];
        weight_square += weight[i] * weight[i];
        matched += weight[i] * envelope[i];
    }
    const double effective_values = weight_sum * weight_sum / weight_square;
    const auto turn = strongest_turn(weighted, effective_values, two_pi * search.reach_hz * band.hop_s);
    if (!turn) return std::nullopt;
    const auto peak = spectrum_at(weighted, *turn).value;
    const double level = std::abs(peak) / matched;
    if (std::abs(peak) <
        faintest_snr * search.noise_level * std::sqrt(weight_square * band.correlated_values))
        return std::nullopt;

    PartialFit fit;
    fit.frequency_hz = band.reference_hz + *turn / (two_pi * band.hop_s);
    fit.decay_rate = alpha;
    fit.level = level;
    fit.noise_level = search.noise_level;

    // The estimate solves sum g t~ Im(y e^-j(phase)) = 0: its variance is that of the sum over its slope
    // squared.
    double first = 0.0, residual_power = 0.0;
    for (std::size_t i = 0; i < y.size(); ++i) first += weight[i] * envelope[i] * static_cast<double>(i);
    const double middle = first / matched;
    double slope = 0.0, noise_sum = 0.0;
    std::vector<double> pull(y.size());
    std::vector<double> imaginary(y.size());
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double t = static_cast<double>(i) - middle;
        const auto turned = y[i] * std::polar(1.0, -*turn * static_cast<double>(i) - std::arg(peak));
        const double expected = level * envelope[i];
        imaginary[i] = turned.imag();
        pull[i] = weight[i] * t * turned.imag();
        slope += weight[i] * t * t * expected;
        noise_sum += weight[i] * weight[i] * t * t * 0.5 * noise_power * band.correlated_values;
        residual_power += weight[i] * weight[i] * std::norm(turned - expected);
    }
    residual_power /= weight_square;
    fit.residual_level = std::sqrt(residual_power);
    // What the residuals really do to the sum: their own covariance over a quarter of the window.
    double whole = 0.0;
    const auto lags = static_cast<std::size_t>(std::max(band.correlated_values, 0.25 * effective_values));
    for (std::size_t lag = 0; lag < lags && lag < pull.size(); ++lag) {
        const double taper = 1.0 - static_cast<double>(lag) / static_cast<double>(lags);
        double sum = 0.0;
        for (std::size_t i = 0; i + lag < pull.size(); ++i) sum += pull[i] * pull[i + lag];
        whole += (lag == 0 ? 1.0 : 2.0) * taper * sum;
    }
    const double scale = 1.0 / (slope * slope) / std::pow(two_pi * band.hop_s, 2);
    fit.noise_variance_hz2 = noise_sum * scale;
    fit.model_variance_hz2 = std::max(0.0, whole - noise_sum) * scale;

    const double effective_power = std::max(noise_power, residual_power);
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double expected = level * envelope[i];
        fit.times_s.push_back(band.time_s(i));
        fit.weights.push_back(2.0 * level * weight[i] * expected / effective_power / band.correlated_values);
        fit.phase_rad.push_back(imaginary[i] / expected);
        fit.information += fit.weights.back();
    }
    return fit;
}

} // namespace harpkeep
