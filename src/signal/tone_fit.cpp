// SPDX-License-Identifier: MIT
#include "signal/tone_fit.hpp"

#include "base/expects.hpp"
#include "signal/hidden_twin.hpp"
#include "signal/tone_problem.hpp"
#include "signal/two_tone_search.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

// Mean of the log of what one tone leaves over.
constexpr double shows_least = 0.05, shows_surely = 0.35;
constexpr double least_probability = 1e-3;
constexpr double rarely_alone = 0.05;      // odds that a string swings in one direction only
constexpr double most_hidden_cents = 0.35; // by what twins an octave around do where they are heard
// A second tone as invented strings have it (-14 dB), and what it may leave over and still hide in the noise.
constexpr Twin usual_twin{.split = 0.6 / cents_per_neper, .decay_ratio = 0.6, .share = 0.2};
constexpr double hides_at = 0.2;
// By what the variance of all together exceeds what the curvature at the likeliest says, measured on
// synthetic strings: what few partials share, they have been bent to fit; what many share is found better
// than said, for they are held to stray. Where the glide has not settled and the second tone is barely heard,
// the likelihood is far from normal.
constexpr double curvature_of_many = 0.78, curvature_of_few = 28.0;
constexpr double curvature_unsettled = 120.0, curvature_fall = 1.5;
// About the rms of glides as they are expected before any fit: half of the plucks have none, the others one
// of 3 cents or so (signal/glide.cpp).
constexpr double widest_shared_cents = 2.0;

double square(double x)
{
    return x * x;
}

double smooth_step(double from, double to, double x)
{
    const double part = std::clamp((x - from) / (to - from), 0.0, 1.0);
    return part * part * (3.0 - 2.0 * part);
}

/// How far the second tone is believed: fully where it explains nearly all that one tone leaves over, not at
/// all where it merely bends along with other things, nor where one tone leaves hardly more than noise.
double acceptance(double alone, double together)
{
    return smooth_step(shows_least, shows_surely, alone) *
           smooth_step(explained_least, explained_surely, explained_share(alone, together));
}

void fill(ToneFit& fit, std::span<const TonePartial> partials, std::span<const TwoTones> sides)
{
    std::vector<double> mean(partials.size()); // relative to where the search began
    double shared = 0.0, shared_mean = 0.0, shared_square = 0.0;
    for (const auto& side : sides) {
        double off = 0.0, sum = 0.0;
        for (std::size_t i = 0; i < partials.size(); ++i) {
            const auto& one = side.readings.partials[i];
            const double relative = std::log(one.frequency_hz / partials[i].frequency_hz);
            mean[i] += side.weight * relative;
            fit.partials[i].variance_cents2 += side.weight * one.variance * cents_per_neper * cents_per_neper;
            off += one.weight * relative, sum += one.weight;
        }
        off /= sum;
        shared += side.weight * side.readings.shared_variance;
        shared_mean += side.weight * off, shared_square += side.weight * off * off;
    }
    for (std::size_t i = 0; i < partials.size(); ++i)
        fit.partials[i].frequency_hz = partials[i].frequency_hz * std::exp(mean[i]);
    const double between = std::max(0.0, shared_square - shared_mean * shared_mean);
    fit.shared_sd_cents = cents_per_neper * std::sqrt(shared + between);
}

/// What the variance that the curvature gives is to be multiplied by.
double curvature_factor(double partial_count, double unsettled, double misfit_alone)
{
    return curvature_of_many + curvature_of_few / (partial_count * partial_count) +
           curvature_unsettled * unsettled * unsettled * std::exp(-curvature_fall * misfit_alone);
}

/// No wider than what is known of glides before any fit.
double bounded_sd_cents(double sd_cents)
{
    return sd_cents / std::sqrt(1.0 + square(sd_cents / widest_shared_cents));
}

/// How far both explanations are apart in the mean over the partials.
double apart_cents(const ToneFit& fit, const ToneState& alone, const ToneProblem::Readings& readings)
{
    double apart = 0.0, weights = 0.0;
    for (std::size_t i = 0; i < alone.partials.size(); ++i) {
        const double weight = readings.partials[i].weight;
        apart += weight * std::log(fit.partials[i].frequency_hz / alone.partials[i].own.frequency_hz);
        weights += weight;
    }
    return cents_per_neper * apart / weights;
}

} // namespace

std::optional<ToneFit> fit_two_tones(std::span<const TonePartial> partials, const ToneSearch& search)
{
    HARPKEEP_EXPECTS(!partials.empty() && search.glide.time_s > 0.0 && search.relaxation_s > 0.0);
    const ToneProblem problem(partials, search);
    ToneState alone = problem.start(partials);
    alone.what.glide = search.glide.amount > 0.0;
    alone.shared.glide_amount = search.glide.amount;
    const double misfit_alone = misfit(problem.solve(alone));
    std::vector<TwoTones> sides = explain_by_two(problem, alone, misfit_alone);
    const auto accepted = [&] { return acceptance(misfit_alone, misfit(likeliest(sides).readings)); };
    if (accepted() > least_probability) sides = spread_over_decay_ratios(problem, sides);
    const TwoTones& best = likeliest(sides);
    const double least = best.state.log_evidence;
    double sum = 0.0;
    for (auto& side : sides) sum += side.weight = std::exp(side.state.log_evidence - least);
    const double against = std::exp(std::min(700.0, alone.log_evidence - least));
    ToneFit fit{.probability = sum / (sum + against) * accepted()};
    const double unheard = 1.0 - smooth_step(shows_least, shows_surely, misfit_alone);
    const double possible = unheard * sum / (sum + against * rarely_alone);
    // Hidden in the noise, or heard and not explained.
    const double hides = unheard * std::min(1.0, hides_at / expected_misfit(partials, usual_twin));
    const double unknown = hides + (1.0 - unheard) * square(1.0 - fit.probability);
    if (std::max({fit.probability, possible, unknown}) < least_probability) return std::nullopt;
    for (auto& side : sides) side.weight /= sum;

    double twins2 = 0.0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        const OwnTone& own = best.state.partials[i].own;
        fit.partials.push_back({.decay_rate = own.decay_rate,
                                .level = best.readings.partials[i].level,
                                .excess = std::max(1.0, best.readings.partials[i].excess),
                                .twin_level_ratio = std::abs(own.twin)});
        twins2 += std::norm(own.twin);
    }
    fill(fit, partials, sides);
    const double seen_cents = std::hypot(fit.shared_sd_cents, apart_cents(fit, alone, best.readings));
    const double unsettled = unsettled_share(partials, search.relaxation_s);
    const double usual_cents = usual_hidden_cents(partials.size(), unsettled);
    fit.hidden_sd_cents =
        std::min(std::max(most_hidden_cents, usual_cents),
                 std::sqrt((1.0 - hides) * possible * square(seen_cents) + unknown * square(usual_cents)));
    fit.shared_sd_cents = bounded_sd_cents(
        fit.shared_sd_cents *
        std::sqrt(curvature_factor(static_cast<double>(partials.size()), unsettled, misfit_alone)));
    const SharedTone& shared = best.state.shared;
    fit.glide = {.amount = shared.glide_amount,
                 .time_s = std::exp(shared.log_glide_time),
                 .start_s = search.glide.start_s};
    fit.twin = {.split = shared.split,
                .decay_ratio = std::exp(shared.log_decay_ratio),
                .share = std::sqrt(twins2 / static_cast<double>(partials.size()))};
    fit.scatter_cents = cents_per_neper * best.state.scatter;
    return fit;
}

} // namespace harpkeep
