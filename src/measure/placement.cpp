// SPDX-License-Identifier: MIT
#include "measure/placement.hpp"

#include "measure/order_alignment.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double offset_reach_cents = 120.0; // a harp at 415 Hz lies 101 cents under 440 Hz
constexpr double offset_step_cents = 20.0;
constexpr double offset_cost_per_cent = 0.05;
constexpr double learned_share = 0.8;    // of a string's mean residual, with one pluck
constexpr double ambiguous_margin = 1.2; // costs nearer than that: odds under 1 to 3
constexpr int learning_rounds = 3;

double median_of(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// What the harp and each of its strings are off, learned from an alignment.
HarpTuning learn(const OrderAligner& aligner, const Alignment& alignment, const HarpTuning& before,
                 std::size_t string_count)
{
    std::vector<double> all;
    std::vector<std::vector<double>> by_string(string_count);
    for (std::size_t n = 0; n < alignment.target.size(); ++n) {
        if (!alignment.target[n]) continue;
        const auto& target = aligner.targets()[*alignment.target[n]];
        const double off = alignment.pitch_cents[n] - target.expected_cents;
        all.push_back(off);
        by_string[target.string].push_back(off);
    }
    if (all.empty()) return before;
    HarpTuning tuning{.harp_cents = median_of(all), .string_cents = std::vector<double>(string_count, 0.0)};
    for (std::size_t i = 0; i < string_count; ++i) {
        if (by_string[i].empty()) continue;
        const double count = static_cast<double>(by_string[i].size());
        const double off = median_of(by_string[i]) - tuning.harp_cents;
        // One pluck may be in the wrong position; what several agree on belongs to the string.
        tuning.string_cents[i] =
            std::abs(off) < 75.0 ? off * count / (count + 1.0 / learned_share - 1.0) : 0.0;
    }
    return tuning;
}

struct Attempt {
    PlayingWay way;
    bool from_top;
    HarpTuning tuning;
    double cost;
};

} // namespace

PluckPlacement place_plucks(const HarpLayout& layout, Hertz a4, std::span<const HeardPluck> plucks)
{
    PluckPlacement placement;
    if (plucks.empty() || layout.strings.empty()) return placement;
    const std::size_t strings = layout.strings.size();

    std::optional<Attempt> best;
    for (const PlayingWay way :
         {PlayingWay::pass_by_pass, PlayingWay::string_by_string, PlayingWay::pedal_by_pedal})
        for (const bool from_top : {false, true}) {
            const OrderAligner aligner(playing_order(layout, way, from_top), a4, plucks);
            for (double offset = -offset_reach_cents; offset <= offset_reach_cents;
                 offset += offset_step_cents) {
                const HarpTuning tuning{offset, std::vector<double>(strings, 0.0)};
                const double cost = aligner.cost(tuning) + offset_cost_per_cent * std::abs(offset);
                if (!best || cost < best->cost) best = Attempt{way, from_top, tuning, cost};
            }
        }
    const OrderAligner aligner(playing_order(layout, best->way, best->from_top), a4, plucks);
    HarpTuning tuning = best->tuning;
    Alignment alignment = aligner.align(tuning);
    for (int round = 0; round < learning_rounds; ++round) {
        tuning = learn(aligner, alignment, tuning, strings);
        alignment = aligner.align(tuning);
    }

    placement.way = best->way;
    placement.from_top = best->from_top;
    placement.harp_offset_cents = tuning.harp_cents;
    for (std::size_t n = 0; n < plucks.size(); ++n) {
        if (!alignment.target[n]) {
            placement.unplaced.push_back(n);
            continue;
        }
        const auto& target = aligner.targets()[*alignment.target[n]];
        placement.placed.push_back({.pluck = n,
                                    .string = target.string,
                                    .position = target.position,
                                    .off_cents = alignment.pitch_cents[n] - target.expected_cents -
                                                 tuning.harp_cents - tuning.string_cents[target.string],
                                    .rival = alignment.rival[n],
                                    .ambiguous = alignment.margin[n] < ambiguous_margin});
    }
    return placement;
}

} // namespace harpkeep
