// SPDX-License-Identifier: MIT
#include "signal/two_tone_search.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

// From where the second tone is looked for: the likelihood has more than one maximum, each some 0.5 cent
// wide.
constexpr std::array start_splits_cents{0.35, 0.8};
constexpr double hopeless = 300.0; // log evidence at the start against the other side's, if that explains all
constexpr double much_left = 0.5;  // of the misfit: another start may explain it,
constexpr double worth_other_starts = 0.12; // unless two tones explain none of it
constexpr double small_misfit = 0.05;

// How exactly a state is settled, in standard deviations: where the likeliest ratio lies matters less than
// what is read at each that is tried.
constexpr double about_settled_sds = 0.5, settled_sds = 0.2;

constexpr double sure_log_ratio_sd = 0.01; // then the likeliest ratio speaks for all
constexpr double most_log_ratio_step = 0.25, step_sds = 2.5;
constexpr int most_ratio_steps = 8;  // to either side
constexpr double negligible = 4.0;   // log evidence below the highest of its side: the ridge ends there
constexpr double unlikely_side = 10; // log evidence below the other side's

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
    const double left = misfit(likeliest(found).readings);
    const double explained = explained_share(misfit_alone, left);
    if (new_side) return explained < explained_surely || start.log_evidence > best_start - hopeless;
    return left > much_left && explained > worth_other_starts;
}

/// The likeliest state with the ratio of decays held, its evidence that of the ratios about it.
TwoTones solve_at(const ToneProblem& problem, const TwoTones& from, double log_ratio, double step)
{
    TwoTones held{.state = from.state, .above = from.above};
    held.state.shared.log_decay_ratio = log_ratio;
    held.state.held_log_decay_ratio = log_ratio;
    held.readings = problem.solve(held.state, settled_sds);
    const double sds_off = (log_ratio - std::log(twin_start_ratio)) / log_decay_ratio_sd;
    held.state.log_evidence +=
        std::log(step / log_decay_ratio_sd / std::sqrt(2.0 * std::numbers::pi)) - 0.5 * sds_off * sds_off;
    return held;
}

/// From `first` on by steps of the ratio until nothing likely comes any more.
void walk(const ToneProblem& problem, const TwoTones& first, double step, std::vector<TwoTones>& spread)
{
    double highest = first.state.log_evidence;
    TwoTones last = first;
    for (int i = 0; i < most_ratio_steps && last.state.log_evidence > highest - negligible; ++i) {
        last = solve_at(problem, last, last.state.shared.log_decay_ratio + step, std::abs(step));
        highest = std::max(highest, last.state.log_evidence);
        spread.push_back(last);
    }
}

} // namespace

double misfit(const ToneProblem::Readings& readings)
{
    double sum = 0.0;
    for (const auto& one : readings.partials) sum += std::log(std::max(one.excess, 0.1));
    return std::max(0.0, sum / static_cast<double>(readings.partials.size()));
}

double explained_share(double misfit_alone, double misfit_together)
{
    return (misfit_alone - misfit_together + small_misfit) / (misfit_alone + small_misfit);
}

const TwoTones& likeliest(const std::vector<TwoTones>& explanations)
{
    HARPKEEP_EXPECTS(!explanations.empty());
    return *std::max_element(explanations.begin(), explanations.end(), less_likely);
}

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
        TwoTones solved{.above = above};
        solved.readings = problem.solve(start, about_settled_sds);
        solved.state = std::move(start);
        if (same_side == sides.end())
            sides.push_back(std::move(solved));
        else if (less_likely(*same_side, solved))
            *same_side = std::move(solved);
    }
    return sides;
}

std::vector<TwoTones> spread_over_decay_ratios(const ToneProblem& problem,
                                               const std::vector<TwoTones>& explanations)
{
    const double best = likeliest(explanations).state.log_evidence;
    std::vector<TwoTones> spread;
    for (const TwoTones& one : explanations) {
        if (one.state.log_evidence < best - unlikely_side) continue;
        if (one.readings.log_decay_ratio_sd < sure_log_ratio_sd) {
            spread.push_back(one);
            continue;
        }
        const double step = std::min(most_log_ratio_step, step_sds * one.readings.log_decay_ratio_sd);
        spread.push_back(solve_at(problem, one, one.state.shared.log_decay_ratio, step));
        const TwoTones first = spread.back();
        walk(problem, first, step, spread);
        walk(problem, first, -step, spread);
    }
    return spread;
}

} // namespace harpkeep
