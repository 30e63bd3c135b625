// SPDX-License-Identifier: MIT
#include "measure/step_measurement.hpp"

#include "measure/shared_line.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace harpkeep {

namespace {

// ln(B_upper / B_lower) is expected at twice the step, 0.115; the spread covers strings on which B does not
// follow the length, as a wound string's bare ends, and one whose B stays.
constexpr double log_b_ratio_sd = 0.2;
// What two plucks of one string differ by in a partial, beyond what the fits see; up to the factor that the
// partials say (our own choice of where to begin). Faint partials stray the most: what happens to lie beside
// them weighs as their noise does.
constexpr double usual_unevenness_cents = 0.03;
constexpr double glide_freedom = 30.0;
// Two plucks of one string glide by amounts that differ about so much in their mean pitch, cents; what the
// fits say of the difference counts the more the surer they are (our own choice, tried on synthetic harps and
// real samples).
constexpr double glide_difference_sd = 0.4;
// But plucks as strong in every partial were plucked alike, and glide alike: the level from which on they
// count as different. Plucks at other points or angles differ by 1 to 7 dB, a pluck and itself in noise
// mostly by less than 0.4.
constexpr double different_db = 0.55;
constexpr double least_level_sd_db = 0.1;
constexpr double onset_unsure_s = 0.002;   // onsets are found to a millisecond or two,
constexpr double start_sd_s = 0.0005;      // mostly to half of one
constexpr double shortest_decay_s = 0.005; // no string dies sooner
constexpr double db_per_neper = 8.685889638065035;
// How far a partial's interval may be from the others' beyond what the fits say: bodies move single partials
// by up to 6 cents. What is farther off is another thing that was found where the partial had been lost.
constexpr double same_partial_cents = 8.0, same_partial_sds = 3.0;
// By how much the partials' lifts differ, at least, where a string was plucked in another way.
constexpr double different_lifts_cents = 0.03;
constexpr std::size_t least_partials_alike = 5;
constexpr double least_cents = 2e-4;         // rounding of single-precision samples and window edges
constexpr double least_shared_cents = 0.004; // all partials looked at from a little earlier on or for longer
constexpr double least_unevenness_cents = 0.007; // the same partial looked at a little earlier or longer

struct SharedPartial {
    int number;
    double interval_cents;
    double noise2, model2; ///< variances, cents^2
    double stiff_cents;    ///< what stiffness adds to this interval beyond the first partial's, as expected
    double stiff_slope;    ///< its change for a change of ln(B ratio) by 1
};

/// What the noise leaves unsure in a partial's level: in one damped tone amplitude and phase are equally
/// noisy.
double level_sd_db(const Partial& partial)
{
    const double turn_rad = 2.0 * std::numbers::pi * partial.frequency_hz * partial.decay_s;
    return db_per_neper * turn_rad * partial.noise_cents / cents_per_neper;
}

/// How far the levels of the partials that both share are apart, rms, beyond what their noise does and what
/// a little earlier or later means to levels that fall.
double levels_apart_db(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    double weights = 0.0, square = 0.0, count = 0.0, falls = 0.0, both = 0.0;
    for (const auto& a : lower.partials)
        for (const auto& b : upper.partials) {
            if (a.number != b.number) continue;
            const double sd_db = std::hypot(least_level_sd_db, level_sd_db(a), level_sd_db(b));
            const double apart = (b.level_db - a.level_db) / sd_db;
            const double fall = db_per_neper / std::max(std::sqrt(a.decay_s * b.decay_s), shortest_decay_s) /
                                sd_db; // for one second
            weights += 1.0 / (sd_db * sd_db);
            square += apart * apart, falls += fall * fall, both += apart * fall;
            count += 1.0;
        }
    if (count == 0.0) return 0.0;
    const double later_s = std::clamp(both / falls, -onset_unsure_s, onset_unsure_s);
    square += later_s * (later_s * falls - 2.0 * both);
    return std::sqrt(std::max(0.0, square - count) / weights);
}

/// How differently the string was plucked, from 0 to 1.
double unlikeness(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    const double apart_db = levels_apart_db(lower, upper);
    const double square = std::pow(apart_db / different_db, 2);
    return square / (1.0 + square);
}

/// Variance of the difference that both fits leave open.
double glide_variance(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    return std::pow(lower.glide_uncertainty_cents, 2) + std::pow(upper.glide_uncertainty_cents, 2);
}

/// What the part of the glide that is left in differs by when one fit began a little earlier than the other.
double start_variance(const PluckMeasurement& lower, const PluckMeasurement& upper, double glide_share)
{
    const auto fall_cents_per_s = [](const PluckMeasurement& pluck) {
        return pluck.glide_cents / std::max(pluck.decay_s, shortest_decay_s);
    };
    const double fastest = std::max(fall_cents_per_s(lower), fall_cents_per_s(upper));
    return std::pow((1.0 - glide_share) * fastest * start_sd_s, 2);
}

std::vector<SharedPartial> shared_partials(const PluckMeasurement& lower, const PluckMeasurement& upper,
                                           double glide_share)
{
    const double ratio = upper.frequency_hz / lower.frequency_hz;
    // One B for the string: both fits say the same thing about it, the surer one more loudly.
    const double b_lower =
        std::sqrt(std::max(lower.inharmonicity, 1e-8) * std::max(upper.inharmonicity, 1e-8)) / ratio;
    const double b_upper = b_lower * ratio * ratio;
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

/// Whether both may be intervals of one string's partials.
bool agree(const SharedPartial& a, const SharedPartial& b)
{
    const double apart = (a.interval_cents - a.stiff_cents) - (b.interval_cents - b.stiff_cents);
    const double sd = std::sqrt(a.noise2 + a.model2 + b.noise2 + b.model2) +
                      log_b_ratio_sd * std::abs(a.stiff_slope - b.stiff_slope);
    return std::abs(apart) <= same_partial_cents + same_partial_sds * sd;
}

/// Leaves out what was not the same partial in both positions: what does not agree with the interval that
/// agrees with the most.
void drop_strangers(std::vector<SharedPartial>& shared)
{
    SharedPartial most_agreed = shared.front();
    double most = 0.0;
    for (const auto& p : shared) {
        double weight = 0.0;
        for (const auto& other : shared)
            if (agree(p, other)) weight += weight_of(other);
        if (weight > most) most = weight, most_agreed = p;
    }
    std::erase_if(shared, [&](const SharedPartial& p) { return !agree(p, most_agreed); });
}

/// The interval that the partials agree on, each as uneven as `unevenness_cents2` says of it.
template <typename Unevenness>
LineFit fit_intervals(const std::vector<SharedPartial>& shared, const Unevenness& unevenness_cents2)
{
    std::vector<LinePoint> points;
    for (const auto& p : shared)
        points.push_back({.value_cents = p.interval_cents - p.stiff_cents,
                          .slope_cents = p.stiff_slope,
                          .noise_cents2 = p.noise2 + least_cents * least_cents,
                          .unevenness_cents2 = unevenness_cents2(p)});
    return fit_shared_line(points, log_b_ratio_sd);
}

/// How differently glide and second polarisation lift the partials, from 0 to 1: the intervals of the pitches
/// with the lifts still in them scatter, unless the string was plucked alike. 1 where few partials say so.
double lifts_unlikeness(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    auto shared = shared_partials(lower, upper, 0.0);
    if (shared.size() < least_partials_alike) return 1.0;
    drop_strangers(shared);
    const LineFit line = fit_intervals(
        shared, [](const SharedPartial&) { return different_lifts_cents * different_lifts_cents; });
    const double factor2 = line.scatter * line.scatter;
    return factor2 / (0.25 + factor2);
}

} // namespace

std::optional<StepSize> measure_step(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    double unlike2 = std::pow(unlikeness(lower, upper), 2);
    if (unlike2 > 0.0) unlike2 *= std::pow(lifts_unlikeness(lower, upper), 2);
    const double prior2 = glide_difference_sd * glide_difference_sd * unlike2;
    const double glide2 = glide_variance(lower, upper);
    const double glide_share = prior2 > 0.0 ? prior2 / (prior2 + glide2) : 0.0;
    auto shared = shared_partials(lower, upper, glide_share);
    if (shared.empty()) return std::nullopt;
    drop_strangers(shared);

    const LineFit line = fit_intervals(shared, [&](const SharedPartial& p) {
        return unlike2 * (p.model2 + usual_unevenness_cents * usual_unevenness_cents) + p.noise2 +
               least_unevenness_cents * least_unevenness_cents;
    });
    const double shared2 = glide_share * glide2 + start_variance(lower, upper, glide_share) +
                           least_shared_cents * least_shared_cents,
                 line2 = std::pow(line.uncertainty_cents, 2);
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
