// SPDX-License-Identifier: MIT
#include "signal/tone_fit.hpp"

#include "base/expects.hpp"
#include "signal/hidden_twin.hpp"
#include "signal/tone_problem.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

// From where the second tone is looked for: the likelihood has more than one maximum, each some 0.5 cent
// wide.
constexpr std::array start_splits_cents{0.35, 0.8};
constexpr double hopeless = 300.0; // log evidence at the start against the other side's, if that explains all
constexpr double much_left = 0.5; // of the misfit: another start may explain it,
constexpr double worth_other_starts = 0.12; // unless two tones explain none of it
// Of the log of what one tone leaves over against the noise: measured, synthetic strings with a twin 0.9 to
// 1, recorded plucks on which two tones are not all that goes on 0.1 to 0.4.
constexpr double explained_least = 0.55, explained_surely = 0.8;
constexpr double small_misfit = 0.05;
constexpr double shows_least = 0.05, shows_surely = 0.35;
constexpr double least_probability = 1e-3;
constexpr double rarely_alone = 0.05;      // odds that a string swings in one direction only
constexpr double most_hidden_cents = 0.35; // by what twins an octave around do where they are heard
// A second tone as invented strings have it (-14 dB), what it does to the pitch of one, and what it would
// leave over where it may hide in the noise, or would show. All measured on synthetic strings.
constexpr Twin usual_twin{.split = 0.6 / cents_per_neper, .decay_ratio = 0.6, .share = 0.2};
constexpr double usual_twin_cents = 0.27;
constexpr double hides_at = 0.15, shows_at = 0.6;

/// Mean of the log of what is left over against the noise; by chance it is as often below zero as above.
double misfit(const ToneProblem::Readings& readings)
{
    double sum = 0.0;
    for (const auto& one : readings.partials) sum += std::log(std::max(one.excess, 0.1));
    return std::max(0.0, sum / static_cast<double>(readings.partials.size()));
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
           smooth_step(explained_least, explained_surely,
                       (alone - together + small_misfit) / (alone + small_misfit));
}

/// A solved explanation by two tones.
struct TwoTones {
    ToneState state;
    ToneProblem::Readings readings;
    bool above = false; ///< the second tone above the main one, where the search began
    double weight = 0.0;
};

bool less_likely(const TwoTones& a, const TwoTones& b)
{
    return a.state.log_evidence < b.state.log_evidence;
}

/// Beginnings of explanations by two tones, the most promising first.
std::vector<ToneState> promising_starts(const ToneProblem& problem, const ToneState& alone)
{
    std::vector<ToneState> starts;
    for (const double side : {1.0, -1.0})
        for (const double cents : start_splits_cents) {
            ToneState two = alone;
            two.what.twin = true;
            two.shared.split = side * cents / cents_per_neper;
            two.shared.log_decay_ratio = std::log(twin_start_ratio);
            problem.form_twin(two);
            starts.push_back(std::move(two));
        }
    std::stable_sort(starts.begin(), starts.end(),
                     [](const ToneState& a, const ToneState& b) { return a.log_evidence > b.log_evidence; });
    return starts;
}

/// Whether what was found so far leaves the question open that another start may answer.
bool is_worth_solving(const ToneState& start, bool new_side, const std::vector<TwoTones>& found,
                      double best_start, double misfit_alone)
{
    if (found.empty()) return true;
    const double left = misfit(std::max_element(found.begin(), found.end(), less_likely)->readings);
    const double explained = (misfit_alone - left + small_misfit) / (misfit_alone + small_misfit);
    if (new_side) return explained < explained_surely || start.log_evidence > best_start - hopeless;
    return left > much_left && explained > worth_other_starts;
}

/// The best fit with the second tone above the main one, and below unless that is hopeless.
std::vector<TwoTones> explain_by_two(const ToneProblem& problem, const ToneState& alone, double misfit_alone)
{
    std::vector<TwoTones> sides;
    double best_start = -1e300;
    auto starts = promising_starts(problem, alone);
    for (ToneState& start : starts) {
        const bool above = start.shared.split > 0.0;
        best_start = std::max(best_start, start.log_evidence);
        const auto same_side = std::find_if(sides.begin(), sides.end(),
                                            [&](const TwoTones& side) { return side.above == above; });
        if (!is_worth_solving(start, same_side == sides.end(), sides, best_start, misfit_alone)) continue;
        problem.solve(start);
        TwoTones solved{.state = std::move(start), .above = above};
        solved.readings = problem.read(solved.state);
        if (same_side == sides.end())
            sides.push_back(std::move(solved));
        else if (less_likely(*same_side, solved))
            *same_side = std::move(solved);
    }
    return sides;
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
    HARPKEEP_EXPECTS(!partials.empty() && search.glide.time_s > 0.0);
    const ToneProblem problem(partials, search);
    ToneState alone = problem.start(partials);
    alone.what.glide = search.glide.amount > 0.0;
    alone.shared.glide_amount = search.glide.amount;
    problem.solve(alone);

    const double misfit_alone = misfit(problem.read(alone));
    std::vector<TwoTones> sides = explain_by_two(problem, alone, misfit_alone);
    const TwoTones& best = *std::max_element(sides.begin(), sides.end(), less_likely);
    const double least = best.state.log_evidence;
    double sum = 0.0;
    for (auto& side : sides) sum += side.weight = std::exp(side.state.log_evidence - least);
    const double against = std::exp(std::min(700.0, alone.log_evidence - least));
    ToneFit fit{.probability = sum / (sum + against) * acceptance(misfit_alone, misfit(best.readings))};
    const double unheard = 1.0 - smooth_step(shows_least, shows_surely, misfit_alone);
    const double possible = unheard * sum / (sum + against * rarely_alone);
    // Hidden in the noise, or heard and not explained.
    const double hides =
        unheard * (1.0 - smooth_step(hides_at, shows_at, expected_misfit(partials, usual_twin)));
    const double unknown = hides + (1.0 - unheard) * (1.0 - fit.probability);
    if (std::max({fit.probability, possible, unknown}) < least_probability) return std::nullopt;
    for (auto& side : sides) side.weight /= sum;

    double square = 0.0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        const OwnTone& own = best.state.partials[i].own;
        fit.partials.push_back({.decay_rate = own.decay_rate,
                                .level = best.readings.partials[i].level,
                                .excess = std::max(1.0, best.readings.partials[i].excess),
                                .twin_level_ratio = std::abs(own.twin)});
        square += std::norm(own.twin);
    }
    fill(fit, partials, sides);
    const double seen_cents = std::hypot(fit.shared_sd_cents, apart_cents(fit, alone, best.readings));
    fit.hidden_sd_cents = std::max(std::min(most_hidden_cents, std::sqrt(possible) * seen_cents),
                                   std::sqrt(unknown) * usual_twin_cents);
    const SharedTone& shared = best.state.shared;
    fit.glide = {.amount = shared.glide_amount,
                 .time_s = std::exp(shared.log_glide_time),
                 .start_s = search.glide.start_s};
    fit.twin = {.split = shared.split,
                .decay_ratio = std::exp(shared.log_decay_ratio),
                .share = std::sqrt(square / static_cast<double>(partials.size()))};
    fit.scatter_cents = cents_per_neper * best.state.scatter;
    return fit;
}

} // namespace harpkeep
