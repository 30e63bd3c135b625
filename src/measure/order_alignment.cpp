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
constexpr double back_cost = 3.0, each_back_cost = 0.5, most_back_cost = 7.5;
constexpr double new_file_cost = 0.5;
constexpr double late_start_cost = 0.15, most_late_start_cost = 4.0;
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

OrderAligner::OrderAligner(std::vector<OrderedTarget> targets, Hertz a4, std::span<const HeardPluck> plucks)
    : targets_(std::move(targets))
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
    const int count = static_cast<int>(targets_.size());
    for (int turns = -count; turns <= count; ++turns) {
        double cost = 0.0;
        if (turns == 0) cost = repeat_cost;
        if (turns > 1) cost = std::min(most_skip_cost, skip_cost + each_skipped_cost * (turns - 1));
        if (turns < 0) cost = std::min(most_back_cost, back_cost - each_back_cost * turns);
        move_.push_back(cost);
    }
}

double OrderAligner::move_cost(std::size_t from, std::size_t to, std::size_t pluck) const
{
    const int turns = targets_[to].turn - targets_[from].turn;
    double cost = move_[static_cast<std::size_t>(turns + static_cast<int>(targets_.size()))];
    if (turns == 0) cost += plucks_[pluck].repeat_cost;
    // A file of its own may begin with any string.
    return plucks_[pluck].first_of_file ? std::min(cost, new_file_cost) : cost;
}

double OrderAligner::start_cost(std::size_t target) const
{
    return std::min(most_late_start_cost, late_start_cost * targets_[target].turn);
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
    return std::min(nothing, *std::min_element(last.begin(), last.end()));
}

Alignment OrderAligner::align(const HarpTuning& tuning) const
{
    const auto all = candidates(tuning);
    const std::size_t plucks = plucks_.size(), targets = targets_.size();
    // rest[n][t]: cheapest for the plucks from n on when target t was placed last; index `targets`: none yet.
    std::vector<std::vector<double>> rest(plucks + 1, std::vector<double>(targets + 1, 0.0));
    const auto step = [&](std::size_t from, std::size_t to, std::size_t n) {
        return from == targets ? start_cost(to) : move_cost(from, to, n);
    };
    for (std::size_t n = plucks; n-- > 0;)
        for (std::size_t t = 0; t <= targets; ++t) {
            double cheapest = rest[n + 1][t] + plucks_[n].ignore_cost;
            for (const auto& c : all[n])
                cheapest = std::min(cheapest, step(t, c.target, n) + c.cost + rest[n + 1][c.target]);
            rest[n][t] = cheapest;
        }

    Alignment result{.cost = rest[0][targets],
                     .target = std::vector<std::optional<std::size_t>>(plucks),
                     .pitch_cents = std::vector<double>(plucks, 0.0),
                     .rival = std::vector<std::size_t>(plucks, 0),
                     .margin = std::vector<double>(plucks, infinite)};
    // so_far[t]: cheapest up to here with t last, whatever the best path does: for the margins.
    std::vector<double> so_far(targets + 1, infinite), next;
    so_far[targets] = 0.0;
    std::size_t at = targets;
    for (std::size_t n = 0; n < plucks; ++n) {
        next = so_far;
        for (double& cost : next) cost += plucks_[n].ignore_cost;
        const Candidate* chosen = nullptr;
        double cheapest = rest[n + 1][at] + plucks_[n].ignore_cost;
        for (const auto& c : all[n]) {
            const double through = step(at, c.target, n) + c.cost + rest[n + 1][c.target];
            if (through < cheapest) cheapest = through, chosen = &c;
        }
        for (const auto& c : all[n]) {
            double before = infinite;
            for (std::size_t t = 0; t <= targets; ++t)
                if (so_far[t] < before) before = std::min(before, so_far[t] + step(t, c.target, n));
            next[c.target] = std::min(next[c.target], before + c.cost);
            if (!chosen) continue;
            const auto& mine = targets_[chosen->target];
            const auto& other = targets_[c.target];
            if (mine.string == other.string && mine.position == other.position) continue;
            result.margin[n] =
                std::min(result.margin[n], before + c.cost + rest[n + 1][c.target] - result.cost);
        }
        if (chosen) {
            result.target[n] = chosen->target;
            result.pitch_cents[n] = chosen->pitch_cents;
            result.rival[n] = chosen->pitch;
            at = chosen->target;
        }
        so_far.swap(next);
    }
    return result;
}

} // namespace harpkeep
