// SPDX-License-Identifier: MIT
#include "measure/step_measurement.hpp"

#include "measure/shared_line.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep {

namespace {

// ln(B_upper / B_lower) is expected at twice the step; the spread covers strings on which B does not follow
// the length, as a wound string's bare ends.
constexpr double log_b_ratio_sd = 0.08;
// What two plucks of one string differ by in a partial, beyond what the fits see; up to the factor that the
// partials say (our own choice of where to begin).
constexpr double usual_unevenness_cents = 0.05;
constexpr double glide_freedom = 30.0;
// Two plucks of one string glide by amounts that differ about so much in their mean pitch, cents; what the
// fits say of the difference counts the more the surer they are (our own choice, tried on synthetic harps and
// real samples).
constexpr double glide_difference_sd = 0.3;
// How far a partial's interval may be from the others' beyond what the fits say: bodies move single partials
// by up to 6 cents. What is farther off is another thing that was found where the partial had been lost.
constexpr double same_partial_cents = 8.0, same_partial_sds = 3.0;
constexpr double least_cents = 2e-4; // rounding of single-precision samples and window edges

struct SharedPartial {
    int number;
    double interval_cents;
    double noise2, model2; ///< variances, cents^2
    double stiff_cents;    ///< what stiffness adds to this interval beyond the first partial's, as expected
    double stiff_slope;    ///< its change for a change of ln(B ratio) by 1
};

std::vector<SharedPartial> shared_partials(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    const double ratio = upper.frequency_hz / lower.frequency_hz;
    // One B for the string: both fits say the same thing about it, the surer one more loudly.
    const double b_lower =
        std::sqrt(std::max(lower.inharmonicity, 1e-8) * std::max(upper.inharmonicity, 1e-8)) / ratio;
    const double b_upper = b_lower * ratio * ratio;
    const double glide2 =
        std::pow(lower.glide_uncertainty_cents, 2) + std::pow(upper.glide_uncertainty_cents, 2);
    const double glide_share =
        glide_difference_sd * glide_difference_sd / (glide_difference_sd * glide_difference_sd + glide2);
    std::vector<SharedPartial> shared;
    for (const auto& a : lower.partials)
        for (const auto& b : upper.partials) {
            if (a.number != b.number) continue;
            const double k2 = a.number * a.number;
            const double stiff = 0.5 * cents_per_neper *
                                 (std::log1p(b_upper * k2) - std::log1p(b_upper) - std::log1p(b_lower * k2) +
                                  std::log1p(b_lower));
            const double slope =
                0.5 * cents_per_neper * (b_upper * k2 / (1.0 + b_upper * k2) - b_upper / (1.0 + b_upper));
            const double total_a = std::pow(a.uncertainty_cents, 2),
                         total_b = std::pow(b.uncertainty_cents, 2);
            const double noise_a = std::pow(a.noise_cents, 2), noise_b = std::pow(b.noise_cents, 2);
            shared.push_back({a.number,
                              cents_per_neper * std::log(b.frequency_hz / a.frequency_hz) -
                                  glide_share * (b.glide_cents - a.glide_cents),
                              noise_a + noise_b,
                              std::max(0.0, total_a - noise_a) + std::max(0.0, total_b - noise_b), stiff,
                              slope});
        }
    return shared;
}

double weight_of(const SharedPartial& p)
{
    return 1.0 / (p.noise2 + p.model2 + usual_unevenness_cents * usual_unevenness_cents);
}

/// The interval with as much weight above it as below.
double weighted_median(std::vector<SharedPartial> shared)
{
    const auto interval = [](const SharedPartial& p) { return p.interval_cents - p.stiff_cents; };
    std::sort(shared.begin(), shared.end(),
              [&](const SharedPartial& a, const SharedPartial& b) { return interval(a) < interval(b); });
    double total = 0.0, below = 0.0;
    for (const auto& p : shared) total += weight_of(p);
    for (const auto& p : shared)
        if ((below += weight_of(p)) >= 0.5 * total) return interval(p);
    return interval(shared.back());
}

/// Leaves out what was not the same partial in both positions.
void drop_strangers(std::vector<SharedPartial>& shared)
{
    const double middle = weighted_median(shared);
    std::erase_if(shared, [&](const SharedPartial& p) {
        const double sd = std::sqrt(p.noise2 + p.model2) + log_b_ratio_sd * std::abs(p.stiff_slope);
        return std::abs(p.interval_cents - p.stiff_cents - middle) >
               same_partial_cents + same_partial_sds * sd;
    });
}

} // namespace

std::optional<StepSize> measure_step(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    auto shared = shared_partials(lower, upper);
    if (shared.empty()) return std::nullopt;
    drop_strangers(shared);

    std::vector<LinePoint> points;
    for (const auto& p : shared)
        points.push_back({.value_cents = p.interval_cents - p.stiff_cents,
                          .slope_cents = p.stiff_slope,
                          .noise_cents2 = p.noise2 + least_cents * least_cents,
                          .unevenness_cents2 = p.model2 + usual_unevenness_cents * usual_unevenness_cents});
    const LineFit line = fit_shared_line(points, log_b_ratio_sd);
    const double glide2 =
        std::pow(lower.glide_uncertainty_cents, 2) + std::pow(upper.glide_uncertainty_cents, 2);
    const double prior2 = glide_difference_sd * glide_difference_sd;
    const double shared2 = glide2 * prior2 / (glide2 + prior2), line2 = std::pow(line.uncertainty_cents, 2);
    // Welch-Satterthwaite (JCGM 100, G.2b); what the glide leaves is known from many values.
    return StepSize{.size_cents = line.value_cents,
                    .uncertainty_cents = std::sqrt(line2 + shared2),
                    .degrees_of_freedom =
                        std::pow(line2 + shared2, 2) /
                        (line2 * line2 / line.degrees_of_freedom + shared2 * shared2 / glide_freedom),
                    .shared_partials = static_cast<int>(shared.size())};
}

std::optional<StepSize> measure_step(std::span<const PluckMeasurement> lower,
                                     std::span<const PluckMeasurement> upper)
{
    std::vector<StepSize> sizes;
    for (const auto& a : lower)
        for (const auto& b : upper)
            if (const auto size = measure_step(a, b)) sizes.push_back(*size);
    if (sizes.empty()) return std::nullopt;
    if (sizes.size() == 1) return sizes.front();

    double weight = 0.0, mean = 0.0;
    for (const auto& s : sizes) {
        const double w = 1.0 / (s.uncertainty_cents * s.uncertainty_cents);
        weight += w, mean += w * s.size_cents;
    }
    mean /= weight;
    double square = 0.0, freedom = 0.0;
    for (const auto& s : sizes) {
        const double w = 1.0 / (s.uncertainty_cents * s.uncertainty_cents);
        square += w * std::pow(s.size_cents - mean, 2);
        freedom += s.degrees_of_freedom;
    }
    // Pairs share plucks: only the smaller number of plucks on one side are independent repeats.
    const double independent = static_cast<double>(std::min(lower.size(), upper.size()));
    const double repeats = std::max(1.0, independent);
    const double ratio = std::max(1.0, square / (static_cast<double>(sizes.size()) - 1.0));
    StepSize result = sizes.front();
    result.size_cents = mean;
    result.uncertainty_cents = std::sqrt(ratio * static_cast<double>(sizes.size()) / weight / repeats);
    result.degrees_of_freedom = freedom / static_cast<double>(sizes.size()) + repeats - 1.0;
    return result;
}

} // namespace harpkeep
