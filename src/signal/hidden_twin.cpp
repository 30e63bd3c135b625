// SPDX-License-Identifier: MIT
#include "signal/hidden_twin.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace harpkeep {

namespace {

using Complex = std::complex<double>;

constexpr double shared_hidden_cents = 0.08, own_hidden_cents = 0.38; // of all partials, of each
constexpr double unsettled_hidden_cents = 1.6;

/// Power of the second tone, for an amplitude of 1, that is free of the first tone and its change with
/// frequency and decay; and the first tone's own. Means over the band's values.
struct Powers {
    double left_over = 0.0, main = 0.0;
};

Powers powers_of(const TonePartial& partial, const Twin& usual)
{
    const double hop_s = partial.band->hop_s, decay = std::max(partial.decay_rate, 0.0);
    const double fall = std::exp(-decay * hop_s);
    const Complex step = std::polar(std::exp(-usual.decay_ratio * decay * hop_s),
                                    2.0 * std::numbers::pi * partial.frequency_hz * usual.split * hop_s);
    double main = 1.0, m00 = 0.0, m01 = 0.0, m11 = 0.0, twin_power = 0.0;
    Complex twin{1.0, 0.0}, y0{}, y1{};
    for (std::size_t i = 0; i < partial.band->values.size(); ++i, main *= fall, twin *= step) {
        const double t = static_cast<double>(i);
        m00 += main * main, m01 += t * main * main, m11 += t * t * main * main;
        y0 += main * twin, y1 += t * main * twin;
        twin_power += std::norm(twin);
    }
    const double count = static_cast<double>(partial.band->values.size());
    const double determinant = m00 * m11 - m01 * m01;
    if (!(determinant > 0.0)) return {.left_over = 0.0, .main = m00 / count};
    const double taken =
        (m11 * std::norm(y0) - 2.0 * m01 * (y0 * std::conj(y1)).real() + m00 * std::norm(y1)) / determinant;
    return {.left_over = std::max(0.0, twin_power - taken) / count, .main = m00 / count};
}

} // namespace

double expected_misfit(std::span<const TonePartial> partials, const Twin& usual)
{
    double sum = 0.0;
    for (const auto& partial : partials) {
        double energy = 0.0;
        for (const auto& value : partial.band->values) energy += std::norm(value);
        const double noise = partial.noise_level * partial.noise_level;
        const double power = std::max(0.0, energy / static_cast<double>(partial.band->values.size()) - noise);
        const Powers of = powers_of(partial, usual);
        sum += std::log1p(usual.share * usual.share * of.left_over / of.main * power / noise);
    }
    return sum / static_cast<double>(partials.size());
}

double unsettled_share(std::span<const TonePartial> partials, double relaxation_s)
{
    HARPKEEP_EXPECTS(relaxation_s > 0.0);
    double span_s = 0.0;
    for (const auto& partial : partials)
        span_s = std::max(span_s, partial.band->hop_s * static_cast<double>(partial.band->values.size()));
    return std::exp(-span_s / relaxation_s);
}

double usual_hidden_cents(std::size_t partial_count, double unsettled)
{
    HARPKEEP_EXPECTS(partial_count > 0);
    return std::hypot(shared_hidden_cents + unsettled_hidden_cents * unsettled,
                      own_hidden_cents / std::sqrt(static_cast<double>(partial_count)));
}

} // namespace harpkeep
