// SPDX-License-Identifier: MIT
#include "measure/order_alignment.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace harpkeep {

namespace {

// Costs are -ln of how likely a thing is against the next string in order sounding in tune; our own choice,
// tried on synthetic recordings with mishaps.
constexpr double repeat_cost = 1.5;
constexpr double skip_cost = 2.5, each_skipped_cost = 0.7, most_skip_cost = 7.0;
// A player who sounds chosen strings only leaves out whole ones, and seldom one position of a string. The
// more of a harp sounds, the less likely that is what was meant.
constexpr double chosen_strings_cost = 1.0, chosen_strings_cost_of_all = 24.0, unchosen_cost = 1.0;
constexpr double back_cost = 3.0, each_back_cost = 0.5, most_back_cost = 7.5;
constexpr double new_file_cost = 0.5;
constexpr double later_pass_cost = 1.0, late_start_cost = 0.15, most_late_start_cost = 2.5;
constexpr double other_pitch_cost = 6.0; // a pitch that was not the likeliest of its sound
// Two plucks of one string agree within a cent, two strings at one key seldom do.
constexpr double repeat_sd_cents = 1.0, repeat_agrees = -1.0, repeat_disagrees = 3.0;
constexpr double ignore_clear_cost = 7.0; // a clear string that fits nowhere
constexpr double ignore_unclear_cost = 3.0;
constexpr double clear_uncertainty_cents = 2.0;
constexpr double farthest_cents = 130.0; // a pedal in the wrong position is 100 off
constexpr double semitone_off_cost = 6.0;
constexpr double infinite = std::numeric_limits<double>::infinity();

double pitch_cost(double off_cents, double spread_cents)
{
    const double off = std::abs(off_cents);
    if (off > farthest_cents) return infinite;
    if (off > 65.0) return semitone_off_cost;
    // Student, 2 degrees of freedom
    return 1.5 * std::log1p(off * off / (3.0 * spread_cents * spread_cents));
}

/// Added to a repeat: does its pitch speak for the same string?
double agreement_cost(double difference_cents)
{
    const double square = std::pow(difference_cents / repeat_sd_cents, 2);
    return std::min(repeat_disagrees, repeat_agrees + 0.5 * square);
}

double cents_from_key_0(double frequency_hz, Hertz a4)
{
    return 6900.0 + 1200.0 * std::log2(frequency_hz / a4.value());
}

} // namespace

OrderAligner::OrderAligner(std::vector<OrderedTarget> targets, Hertz a4, std::span<const HeardPluck> plucks,
                           Coverage coverage)
    : targets_(std::move(targets)), coverage_(coverage)
{
    HARPKEEP_EXPECTS(!targets_.empty() && a4.value() > 0.0);
    int last_file = plucks.empty() ? 0 : plucks.front().file_index;
    for (const auto& heard : plucks) {
        const auto& m = heard.measurement;
        Pluck pluck{.pitches_cents = {cents_from_key_0(m.frequency_hz, a4)},
                    .pass = heard.pass,
                    .ignore_cost = m.uncertainty_cents < clear_uncertainty_cents ? ignore_clear_cost
                                                                                 : ignore_unclear_cost,
                    .first_of_file = heard.file_index != last_file};
        for (const auto& rival : m.rivals)
            pluck.pitches_cents.push_back(cents_from_key_0(rival.frequency_hz, a4));
        if (!plucks_.empty())
            pluck.repeat_cost =
                agreement_cost(pluck.pitches_cents.front() - plucks_.back().pitches_cents.front());
        plucks_.push_back(std::move(pluck));
        last_file = heard.file_index;
    }
    skip_.push_back(0.0);
    back_.push_back(0.0);
    for (std::size_t n = 1; n <= targets_.size(); ++n) {
        const double further = static_cast<double>(n - 1);
        skip_.push_back(std::min(most_skip_cost, skip_cost + each_skipped_cost * further));
        back_.push_back(std::min(most_back_cost, back_cost + each_back_cost * (further + 1.0)));
    }
}

double OrderAligner::move_cost(std::size_t from, std::size_t to, std::size_t pluck) const
{
    const auto& a = targets_[from];
    const auto& b = targets_[to];
    const auto at = [](const std::vector<double>& costs, int n) {
        return costs[static_cast<std::size_t>(n)];
    };
    double cost = 0.0;
    if (b.turn == a.turn)
        cost = repeat_cost + plucks_[pluck].repeat_cost;
    else if (b.turn < a.turn)
        cost = at(back_, a.turn - b.turn);
    else if (coverage_ == Coverage::whole_harp || b.unit == a.unit)
        cost = at(skip_, b.turn - a.turn - 1);
    else
        cost = at(skip_, a.after_in_unit + b.before_in_unit) + (b.unit - a.unit > 1 ? unchosen_cost : 0.0);
    // A file of its own may begin with any string.
    return plucks_[pluck].first_of_file ? std::min(cost, new_file_cost) : cost;
}

double OrderAligner::start_cost(std::size_t target) const
{
    const auto& first = targets_[target];
    const double late = std::min(most_late_start_cost, (first.pass > 0 ? later_pass_cost : 0.0) +
                                                           late_start_cost * first.turn_in_pass);
    if (coverage_ == Coverage::whole_harp) return late;
    const double share = static_cast<double>(plucks_.size()) / static_cast<double>(targets_.size());
    return chosen_strings_cost + chosen_strings_cost_of_all * share * share + late +
           skip_[static_cast<std::size_t>(first.before_in_unit)];
}

double OrderAligner::end_cost(std::size_t target) const
{
    return coverage_ == Coverage::whole_harp
               ? 0.0
               : skip_[static_cast<std::size_t>(targets_[target].after_in_unit)];
}

double OrderAligner::step_cost(std::size_t from, std::size_t to, std::size_t pluck) const
{
    return from == targets_.size() ? start_cost(to) : move_cost(from, to, pluck);
}

std::vector<std::vector<OrderAligner::Candidate>> OrderAligner::candidates(const HarpTuning& tuning) const
{
    std::vector<std::vector<Candidate>> all(plucks_.size());
    for (std::size_t n = 0; n < plucks_.size(); ++n)
        for (std::size_t t = 0; t < targets_.size(); ++t) {
            const auto& target = targets_[t];
            if (plucks_[n].pass && *plucks_[n].pass != target.position) continue;
            const double expected = target.expected_cents + tuning.off_cents(n, target.string);
            const double spread = tuning.spread_cents_for(n, target.string);
            Candidate best{t, 0, 0.0, infinite};
            for (std::size_t p = 0; p < plucks_[n].pitches_cents.size(); ++p) {
                const double pitch = plucks_[n].pitches_cents[p];
                const double cost = pitch_cost(pitch - expected, spread) + (p > 0 ? other_pitch_cost : 0.0);
                if (cost < best.cost) best = {t, p, pitch, cost};
            }
            if (best.cost < infinite) all[n].push_back(best);
        }
    return all;
}

double OrderAligner::cost(const HarpTuning& tuning) const
{
    const auto all = candidates(tuning);
    // last[t]: cheapest so far with target t placed last; nothing: nothing placed yet.
    std::vector<double> last(targets_.size(), infinite), next;
    double nothing = 0.0;
    for (std::size_t n = 0; n < plucks_.size(); ++n) {
        next.resize(last.size());
        for (std::size_t t = 0; t < last.size(); ++t) next[t] = last[t] + plucks_[n].ignore_cost;
        for (const auto& candidate : all[n]) {
            double before = nothing + start_cost(candidate.target);
            for (std::size_t t = 0; t < last.size(); ++t)
                if (last[t] < before) before = std::min(before, last[t] + move_cost(t, candidate.target, n));
            next[candidate.target] = std::min(next[candidate.target], before + candidate.cost);
        }
        nothing += plucks_[n].ignore_cost;
        last.swap(next);
    }
    double cheapest = nothing;
    for (std::size_t t = 0; t < last.size(); ++t) cheapest = std::min(cheapest, last[t] + end_cost(t));
    return cheapest;
}

std::vector<std::vector<double>>
OrderAligner::costs_of_rest(const std::vector<std::vector<Candidate>>& all) const
{
    const std::size_t plucks = plucks_.size(), targets = targets_.size();
    std::vector<std::vector<double>> rest(plucks + 1, std::vector<double>(targets + 1, 0.0));
    for (std::size_t t = 0; t < targets; ++t) rest[plucks][t] = end_cost(t);
    for (std::size_t n = plucks; n-- > 0;)
        for (std::size_t t = 0; t <= targets; ++t) {
            double cheapest = rest[n + 1][t] + plucks_[n].ignore_cost;
            for (const auto& c : all[n])
                cheapest = std::min(cheapest, step_cost(t, c.target, n) + c.cost + rest[n + 1][c.target]);
            rest[n][t] = cheapest;
        }
    return rest;
}

Alignment OrderAligner::align(const HarpTuning& tuning) const
{
    const auto all = candidates(tuning);
    const auto rest = costs_of_rest(all);
    const std::size_t plucks = plucks_.size(), none_yet = targets_.size();
    Alignment result{.cost = rest[0][none_yet],
                     .target = std::vector<std::optional<std::size_t>>(plucks),
                     .pitch_cents = std::vector<double>(plucks, 0.0),
                     .rival = std::vector<std::size_t>(plucks, 0)};
    std::size_t at = none_yet;
    for (std::size_t n = 0; n < plucks; ++n) {
        const Candidate* chosen = nullptr;
        double cheapest = rest[n + 1][at] + plucks_[n].ignore_cost;
        for (const auto& c : all[n]) {
            const double through = step_cost(at, c.target, n) + c.cost + rest[n + 1][c.target];
            if (through < cheapest) cheapest = through, chosen = &c;
        }
        if (!chosen) continue;
        result.target[n] = chosen->target;
        result.pitch_cents[n] = chosen->pitch_cents;
        result.rival[n] = chosen->pitch;
        at = chosen->target;
    }
    return result;
}

std::vector<double> OrderAligner::costs_elsewhere(const HarpTuning& tuning,
                                                  std::span<const std::optional<StringAt>> placed) const
{
    HARPKEEP_EXPECTS(placed.size() == plucks_.size());
    const auto all = candidates(tuning);
    const auto rest = costs_of_rest(all);
    const std::size_t targets = targets_.size();
    std::vector<double> elsewhere(plucks_.size(), infinite);
    // so_far[t]: cheapest up to here with target t placed last; index `targets`: none yet.
    std::vector<double> so_far(targets + 1, infinite), next;
    so_far[targets] = 0.0;
    for (std::size_t n = 0; n < plucks_.size(); ++n) {
        next = so_far;
        for (double& cost : next) cost += plucks_[n].ignore_cost;
        for (const auto& c : all[n]) {
            double before = infinite;
            for (std::size_t t = 0; t <= targets; ++t)
                if (so_far[t] < before) before = std::min(before, so_far[t] + step_cost(t, c.target, n));
            next[c.target] = std::min(next[c.target], before + c.cost);
            const StringAt here{targets_[c.target].string, targets_[c.target].position};
            if (placed[n] && *placed[n] != here)
                elsewhere[n] = std::min(elsewhere[n], before + c.cost + rest[n + 1][c.target]);
        }
        so_far.swap(next);
    }
    return elsewhere;
}

} // namespace harpkeep
