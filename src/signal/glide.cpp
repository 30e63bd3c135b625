// SPDX-License-Identifier: MIT
#include "signal/glide.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double prior_sd = 3.0 / cents_per_neper; // 3 cents: between the 0.4 and 7 cents seen on harp plucks
constexpr double time_factors[] = {0.5, 1.0, 2.0};

/// What one partial says about a glide of one time: its phase residual against the glide's phase, both freed
/// of constant and slope.
struct Evidence {
    double information = 0.0; ///< sum w g_perp^2
    double product = 0.0;     ///< sum w g_perp phase
    double slope = 0.0;       ///< rad/s of the fitted turn for an amount of 1
};

Evidence evidence_of(const PartialFit& partial, double start_s, double time_s)
{
    const std::size_t n = partial.times_s.size();
    std::vector<double> g(n);
    double s0 = 0, s1 = 0, s2 = 0, g0 = 0, g1 = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double t = partial.times_s[i] - start_s;
        // Phase that the glide adds: 2 pi f times the integral of exp(-t / time).
        g[i] = 2.0 * std::numbers::pi * partial.frequency_hz * time_s * -std::expm1(-t / time_s);
        const double w = partial.weights[i];
        s0 += w, s1 += w * t, s2 += w * t * t, g0 += w * g[i], g1 += w * g[i] * t;
    }
    const double determinant = s0 * s2 - s1 * s1;
    if (!(determinant > 0.0)) return {};
    const double slope = (s0 * g1 - s1 * g0) / determinant;
    const double constant = (g0 - slope * s1) / s0;
    Evidence evidence{.slope = slope};
    for (std::size_t i = 0; i < n; ++i) {
        const double perp = g[i] - constant - slope * (partial.times_s[i] - start_s);
        evidence.information += partial.weights[i] * perp * perp;
        evidence.product += partial.weights[i] * perp * partial.phase_rad[i];
    }
    return evidence;
}

} // namespace

GlideFit fit_glide(std::span<const PartialFit> partials, double start_s, double decay_rate)
{
    HARPKEEP_EXPECTS(decay_rate > 0.0);
    GlideFit best{.shift_hz = std::vector<double>(partials.size()),
                  .shift_sd_hz = std::vector<double>(partials.size())};
    double best_log_odds = -1e300;
    for (const double factor : time_factors) {
        const double time_s = factor / (2.0 * decay_rate);
        std::vector<Evidence> all;
        double information = 0.0, product = 0.0;
        for (const auto& partial : partials) {
            all.push_back(evidence_of(partial, start_s, time_s));
            information += all.back().information;
            product += all.back().product;
        }
        if (!(information > 0.0)) continue;
        const double prior_information = 1.0 / (prior_sd * prior_sd);
        const double amount = product / (information + prior_information);
        const double variance = 1.0 / (information + prior_information);
        // Bayes factor of a normal mean with normal prior against none.
        const double log_odds = 0.5 * product * amount - 0.5 * std::log1p(information / prior_information);
        if (log_odds <= best_log_odds) continue;
        best_log_odds = log_odds;
        const double p = 1.0 / (1.0 + std::exp(-log_odds));
        best.amount = p * amount;
        best.time_s = time_s;
        best.probability = p;
        const double spread = p * variance + p * (1.0 - p) * amount * amount;
        for (std::size_t i = 0; i < partials.size(); ++i) {
            best.shift_hz[i] = best.amount * all[i].slope / (2.0 * std::numbers::pi);
            best.shift_sd_hz[i] = std::sqrt(spread) * std::abs(all[i].slope) / (2.0 * std::numbers::pi);
        }
    }
    return best;
}

} // namespace harpkeep
