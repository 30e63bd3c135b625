// SPDX-License-Identifier: MIT
#include "measure/step_measurement.hpp"

#include "measure/partial_pairs.hpp"
#include "measure/pluck_likeness.hpp"
#include "measure/shared_line.hpp"
#include "measure/tone_measurement.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep {

namespace {

// ln(B_upper / B_lower) is expected at twice the step, 0.115; the spread covers strings on which B does not
// follow the length, as a wound string's bare ends, and one whose B stays.
constexpr double log_b_ratio_sd = 0.2;
// What two plucks of one string differ by in a partial, beyond what the fits see; up to the factor that the
// partials say (our own choice of where to begin).
constexpr double usual_unevenness_cents = 0.012;
// Faint partials stray the most: what happens to lie beside them weighs as their noise does. And below some
// hundred hertz hum and rumble lie beside all of them. Shares of the noise's variance; seen on real plucks.
constexpr double faint_share = 0.5, faint_noise_cents = 0.05;
constexpr double hum_share = 1.6, hum_hz = 250.0;
// The factor on what partials stray by: of plucks alike it is known well; what others stray by is little as a
// rule, and much where a body holds a partial. It scales what hum and faintness do as well.
constexpr ScatterPrior alike_prior{.factor = 0.8, .log_sd = 0.8},
    unlike_prior{.factor = 0.2, .log_sd = 0.5, .tail = 0.5};
constexpr double glide_freedom = 30.0;
// Two plucks of one string glide, and are lifted by second polarisations, by amounts that differ about so
// much in their mean pitch, cents; few partials do not average their own out (fitted to synthetic strings).
struct GlideDifference {
    double shared_cents, own_cents; ///< the latter by the number of partials
};
constexpr GlideDifference usual_difference{.shared_cents = 0.36, .own_cents = 2.2};
// What the fits say of the difference is taken off the more the surer they are, yet always less than the
// usual difference would have it: where other strings sound along, as in whole harps, they are less sure than
// they say.
constexpr GlideDifference believed_difference{.shared_cents = 0.25, .own_cents = 2.0};
// Both fits of one string err to the same side by so much of what they are unsure of (on synthetic strings).
constexpr double leaning_alike = 0.1;
constexpr double start_sd_s = 0.0005; // of the fit's start against the pluck
// What a pitch sinks by in its decay, where the lifts do not say more; how fast the mean lift falls with the
// start, against lift / decay.
constexpr double least_fall_cents = 0.8, lift_fall = 1.5;
constexpr double span_share = 2.5; // of the effect of another length that the simple formula gives
// How far a partial's interval may be from the others' beyond what the fits say: bodies move single partials
// by up to 6 cents. What is farther off is another thing that was found where the partial had been lost.
constexpr double same_partial_cents = 8.0, same_partial_sds = 3.0;
// By how much the partials' lifts differ, at least, where a string was plucked in another way.
constexpr double different_lifts_cents = 0.03;
constexpr std::size_t least_partials_alike = 5;
constexpr double least_cents = 2e-4;         // rounding of single-precision samples and window edges
constexpr double least_shared_cents = 0.002; // all partials looked at from a little earlier on or for longer
constexpr double least_unevenness_cents = 0.007; // the same partial looked at a little earlier or longer

struct SharedPartial {
    int number;
    double frequency_hz; ///< in the lower position
    double interval_cents;
    double noise2, model2; ///< variances, cents^2
    double span2;          ///< the same, of what other lengths of the fits do
    double stiff_cents;    ///< what stiffness adds to this interval beyond the first partial's, as expected
    double stiff_slope;    ///< its change for a change of ln(B ratio) by 1
};

/// Variance of the difference that both fits leave open.
double glide_variance(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    return (1.0 - leaning_alike) *
           (std::pow(lower.glide_uncertainty_cents, 2) + std::pow(upper.glide_uncertainty_cents, 2));
}

/// What is expected of the difference before the fits are asked.
double difference_variance(const GlideDifference& difference, std::size_t partial_count)
{
    const double count = std::max(1.0, static_cast<double>(partial_count));
    return std::pow(difference.shared_cents, 2) + std::pow(difference.own_cents / count, 2);
}

/// How fast the mean pitch falls when the fit begins later.
double fall_cents_per_s(const PluckMeasurement& pluck)
{
    std::vector<double> decays_s;
    double lift = 0.0;
    for (const auto& partial : pluck.partials) {
        decays_s.push_back(partial.decay_s);
        lift += std::abs(partial.glide_cents) / static_cast<double>(pluck.partials.size());
    }
    const auto middle = decays_s.begin() + static_cast<std::ptrdiff_t>(decays_s.size() / 2);
    std::nth_element(decays_s.begin(), middle, decays_s.end());
    return std::hypot(least_fall_cents, lift_fall * lift) /
           std::max({pluck.decay_s, *middle, shortest_decay_s});
}

/// What the part of the glide that is left in differs by when one fit began a little earlier than the other.
double start_variance(const PluckMeasurement& lower, const PluckMeasurement& upper, double glide_share)
{
    const double fastest = std::max(fall_cents_per_s(lower), fall_cents_per_s(upper));
    return std::pow((1.0 - glide_share) * fastest * start_sd_s, 2);
}

/// By how much a partial's mean lift falls when it is looked at for longer, in its ratio: much of its energy
/// comes late where it outlives the fit.
double lift_cents_by_span(const Partial& partial, double length_s)
{
    const double x = 2.0 * length_s / std::max(partial.decay_s, shortest_decay_s);
    return std::abs(partial.glide_cents) * x / std::expm1(x);
}

/// Of two plucks alike the upper dies sooner, in the ratio of the pitches: how far the lengths of the fits
/// are from that ratio, in its logarithm.
struct Spans {
    double lower_s, upper_s, log_longer;
};

Spans spans_of(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    const double a_s = likely_extent(lower).length_s, b_s = likely_extent(upper).length_s;
    return {a_s, b_s, std::log(b_s * upper.frequency_hz / (a_s * lower.frequency_hz))};
}

/// What is left in of a partial's glide differs when one fit was longer than the ratio of the pitches asks
/// for.
double span_variance(const Spans& spans, const Partial& a, const Partial& b, double glide_share)
{
    const double by_span =
        0.5 * (lift_cents_by_span(a, spans.lower_s) + lift_cents_by_span(b, spans.upper_s));
    return std::pow((1.0 - glide_share) * span_share * by_span * spans.log_longer, 2);
}

std::vector<SharedPartial> shared_partials(const PluckMeasurement& lower, const PluckMeasurement& upper,
                                           double glide_share)
{
    const double ratio = upper.frequency_hz / lower.frequency_hz;
    // One B for the string: both fits say the same thing about it, the surer one more loudly.
    const double b_lower =
        std::sqrt(std::max(lower.inharmonicity, 1e-8) * std::max(upper.inharmonicity, 1e-8)) / ratio;
    const double b_upper = b_lower * ratio * ratio;
    const Spans spans = spans_of(lower, upper);
    std::vector<SharedPartial> shared;
    for (const auto& [a, b] : partial_pairs(lower, upper)) {
        const double k2 = a.number * a.number;
        const double stiff =
            0.5 * cents_per_neper *
            (std::log1p(b_upper * k2) - std::log1p(b_upper) - std::log1p(b_lower * k2) + std::log1p(b_lower));
        const double slope =
            0.5 * cents_per_neper * (b_upper * k2 / (1.0 + b_upper * k2) - b_upper / (1.0 + b_upper));
        const double total_a = std::pow(a.uncertainty_cents, 2), total_b = std::pow(b.uncertainty_cents, 2);
        const double noise_a = std::pow(a.noise_cents, 2), noise_b = std::pow(b.noise_cents, 2);
        shared.push_back({.number = a.number,
                          .frequency_hz = a.frequency_hz,
                          .interval_cents = cents_per_neper * std::log(b.frequency_hz / a.frequency_hz) -
                                            glide_share * (b.glide_cents - a.glide_cents),
                          .noise2 = noise_a + noise_b,
                          .model2 = std::max(0.0, total_a - noise_a) + std::max(0.0, total_b - noise_b),
                          .span2 = span_variance(spans, a, b, glide_share),
                          .stiff_cents = stiff,
                          .stiff_slope = slope});
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
LineFit fit_intervals(const std::vector<SharedPartial>& shared, const Unevenness& unevenness_cents2,
                      const ScatterPrior& prior = {})
{
    std::vector<LinePoint> points;
    for (const auto& p : shared)
        points.push_back({.value_cents = p.interval_cents - p.stiff_cents,
                          .slope_cents = p.stiff_slope,
                          .noise_cents2 = p.noise2 + p.span2 + least_cents * least_cents,
                          .unevenness_cents2 = unevenness_cents2(p)});
    return fit_shared_line(points, log_b_ratio_sd, prior);
}

/// What is known of the scatter beforehand.
ScatterPrior scatter_prior(double unlike2)
{
    return {.factor = alike_prior.factor * std::pow(unlike_prior.factor / alike_prior.factor, unlike2),
            .log_sd = alike_prior.log_sd + unlike2 * (unlike_prior.log_sd - alike_prior.log_sd),
            .tail = alike_prior.tail + unlike2 * (unlike_prior.tail - alike_prior.tail)};
}

/// What a partial strays by because of what lies beside it, for a factor of 1.
double straying_variance(const SharedPartial& p)
{
    const double faint = p.noise2 / (p.noise2 + faint_noise_cents * faint_noise_cents);
    const double high = p.frequency_hz / hum_hz;
    return p.noise2 * (faint_share * faint + hum_share / (1.0 + std::pow(high, 4)));
}

/// How differently glide and second polarisation lift the partials, from 0 to 1: the intervals of the pitches
/// with the lifts still in them scatter, unless the string was plucked alike. 1 where few partials say so.
double lifts_unlikeness(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    auto shared = shared_partials(lower, upper, 0.0);
    if (shared.empty()) return 1.0;
    drop_strangers(shared);
    if (shared.size() < least_partials_alike) return 1.0;
    const LineFit line = fit_intervals(
        shared, [](const SharedPartial&) { return different_lifts_cents * different_lifts_cents; });
    const double factor2 = line.scatter * line.scatter;
    return factor2 / (0.25 + factor2);
}

} // namespace

std::optional<StepSize> measure_step(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    double unlike2 = std::pow(levels_unlikeness(lower, upper), 2);
    if (unlike2 > 0.0) unlike2 *= std::pow(lifts_unlikeness(lower, upper), 2);
    const std::size_t pair_count = partial_pairs(lower, upper).size();
    const double believed2 = difference_variance(believed_difference, pair_count) * unlike2;
    const double glide2 = glide_variance(lower, upper);
    const double glide_share = believed2 > 0.0 ? believed2 / (believed2 + glide2) : 0.0;
    auto shared = shared_partials(lower, upper, glide_share);
    if (shared.empty()) return std::nullopt;
    drop_strangers(shared);

    const LineFit line = fit_intervals(
        shared,
        [&](const SharedPartial& p) {
            return unlike2 * (p.model2 + usual_unevenness_cents * usual_unevenness_cents) +
                   straying_variance(p) + least_unevenness_cents * least_unevenness_cents;
        },
        scatter_prior(unlike2));
    const double usual2 = difference_variance(usual_difference, pair_count) * unlike2;
    const double glide_left2 = std::pow(glide_share, 2) * glide2 +
                               std::pow(1.0 - glide_share, 2) * usual2; // what was, what was not taken off
    const double shared2 =
        glide_left2 + start_variance(lower, upper, glide_share) + least_shared_cents * least_shared_cents;
    const double line2 = std::pow(line.uncertainty_cents, 2);
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
