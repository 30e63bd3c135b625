// SPDX-License-Identifier: MIT
#include "measure/placement.hpp"

#include "measure/order_alignment.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace harpkeep {

namespace {

constexpr double offset_reach_cents = 120.0; // a harp at 415 Hz lies 101 cents under 440 Hz
constexpr double offset_step_cents = 20.0;
constexpr double offset_cost_per_cent = 0.05;
constexpr double learned_share = 0.8;      // of a string's mean residual, with one pluck
constexpr double ambiguous_margin = 2.6;   // costs nearer than that: odds under 1 to 13
constexpr double median_to_sd = 1.4826;    // of the size of a normal number
constexpr double least_spread_cents = 5.0; // steps of a good harp differ by that
constexpr int learning_rounds = 3;

double median_of(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct OffOfPluck {
    std::size_t pluck;
    double cents;
};

/// What a string is off beyond the whole harp, as far as its plucks (but one) can say.
double string_off_cents(const std::vector<OffOfPluck>& of_string, double harp_cents,
                        std::optional<std::size_t> without)
{
    std::vector<double> offs;
    for (const auto& off : of_string)
        if (off.pluck != without) offs.push_back(off.cents);
    if (offs.empty()) return 0.0;
    const double count = static_cast<double>(offs.size());
    const double off = median_of(std::move(offs)) - harp_cents;
    // One pluck may be in the wrong position; what several agree on belongs to the string.
    return std::abs(off) < 75.0 ? off * count / (count + 1.0 / learned_share - 1.0) : 0.0;
}

/// What the harp and each of its strings are off, learned from an alignment.
HarpTuning learn(const OrderAligner& aligner, const Alignment& alignment, const HarpTuning& before,
                 std::size_t string_count)
{
    std::vector<double> all;
    std::vector<std::vector<OffOfPluck>> by_string(string_count);
    for (std::size_t n = 0; n < alignment.target.size(); ++n) {
        if (!alignment.target[n]) continue;
        const auto& target = aligner.targets()[*alignment.target[n]];
        all.push_back(alignment.pitch_cents[n] - target.expected_cents);
        by_string[target.string].push_back({n, all.back()});
    }
    if (all.empty()) return before;
    HarpTuning tuning{.harp_cents = median_of(all),
                      .string_cents = std::vector<double>(string_count, 0.0),
                      .without_own =
                          std::vector<std::optional<HarpTuning::WithoutOwn>>(alignment.target.size())};
    std::vector<double> scatter;
    for (std::size_t i = 0; i < string_count; ++i) {
        tuning.string_cents[i] = string_off_cents(by_string[i], tuning.harp_cents, std::nullopt);
        for (const auto& off : by_string[i]) {
            const double others = string_off_cents(by_string[i], tuning.harp_cents, off.pluck);
            tuning.without_own[off.pluck] = {i, others, by_string[i].size() > 1};
            if (by_string[i].size() > 1) scatter.push_back(std::abs(off.cents - tuning.harp_cents - others));
        }
    }
    if (!scatter.empty())
        tuning.spread_cents =
            std::clamp(median_to_sd * median_of(std::move(scatter)), least_spread_cents, before.spread_cents);
    return tuning;
}

/// One way of going through a harp.
struct Order {
    PlayingWay way;
    bool from_top;
    Coverage coverage;
};

std::vector<Order> all_orders()
{
    std::vector<Order> orders;
    for (const bool from_top : {false, true}) {
        for (const PlayingWay way :
             {PlayingWay::pass_by_pass, PlayingWay::string_by_string, PlayingWay::pedal_by_pedal})
            orders.push_back({way, from_top, Coverage::whole_harp});
        orders.push_back({PlayingWay::string_by_string, from_top, Coverage::chosen_strings});
    }
    return orders;
}

OrderAligner aligner_for(const Order& order, const HarpLayout& layout, Hertz a4,
                         std::span<const HeardPluck> plucks)
{
    return {playing_order(layout, order.way, order.from_top), a4, plucks, order.coverage};
}

struct Attempt {
    Order order;
    HarpTuning tuning;
    double cost;
};

/// For each pluck whether another string or position fits nearly as well, in this order of playing or
/// another.
std::vector<bool> ambiguous_plucks(const HarpLayout& layout, Hertz a4, std::span<const HeardPluck> plucks,
                                   const HarpTuning& tuning, const OrderAligner& aligner,
                                   const Alignment& alignment)
{
    std::vector<std::optional<StringAt>> placed(plucks.size());
    for (std::size_t n = 0; n < plucks.size(); ++n)
        if (alignment.target[n]) {
            const auto& target = aligner.targets()[*alignment.target[n]];
            placed[n] = StringAt{target.string, target.position};
        }
    std::vector<bool> ambiguous(plucks.size(), false);
    for (const Order& order : all_orders()) {
        const auto elsewhere = aligner_for(order, layout, a4, plucks).costs_elsewhere(tuning, placed);
        for (std::size_t n = 0; n < plucks.size(); ++n)
            if (elsewhere[n] - alignment.cost < ambiguous_margin) ambiguous[n] = true;
    }
    return ambiguous;
}

} // namespace

PluckPlacement place_plucks(const HarpLayout& layout, Hertz a4, std::span<const HeardPluck> plucks)
{
    PluckPlacement placement;
    if (plucks.empty() || layout.strings.empty()) return placement;
    const std::size_t strings = layout.strings.size();

    std::optional<Attempt> best;
    for (const Order& order : all_orders()) {
        const auto aligner = aligner_for(order, layout, a4, plucks);
        for (double offset = -offset_reach_cents; offset <= offset_reach_cents; offset += offset_step_cents) {
            const HarpTuning tuning{offset, std::vector<double>(strings, 0.0)};
            const double cost = aligner.cost(tuning) + offset_cost_per_cent * std::abs(offset);
            if (!best || cost < best->cost) best = Attempt{order, tuning, cost};
        }
    }
    const auto aligner = aligner_for(best->order, layout, a4, plucks);
    HarpTuning tuning = best->tuning;
    Alignment alignment = aligner.align(tuning);
    for (int round = 0; round < learning_rounds; ++round) {
        tuning = learn(aligner, alignment, tuning, strings);
        alignment = aligner.align(tuning);
    }

    const auto ambiguous = ambiguous_plucks(layout, a4, plucks, tuning, aligner, alignment);
    placement.way = best->order.way;
    placement.from_top = best->order.from_top;
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
                                                 tuning.off_cents(n, target.string),
                                    .rival = alignment.rival[n],
                                    .ambiguous = ambiguous[n]});
    }
    return placement;
}

} // namespace harpkeep
