// SPDX-License-Identifier: MIT
#include "measure/playing_order.hpp"

#include "harp/expected_pitch.hpp"

#include <algorithm>
#include <span>

namespace harpkeep {

namespace {

/// The positions of a whole harp, lowest first: what its fullest string has.
std::vector<Position> harp_positions(HarpKind kind)
{
    if (kind == HarpKind::pedal) return {Position::flat, Position::natural, Position::sharp};
    return {Position::open, Position::engaged};
}

class OrderBuilder {
  public:
    OrderBuilder(const HarpLayout& layout, bool from_top) : layout_(layout)
    {
        for (std::size_t i = 0; i < layout.strings.size(); ++i) strings_.push_back(i);
        if (from_top) std::reverse(strings_.begin(), strings_.end());
    }

    void add(std::size_t string, Position position)
    {
        const auto& of_harp = layout_.strings[string];
        const auto has = positions_of(layout_.kind, of_harp);
        const bool fixed = has.size() == 1;
        if (!fixed && std::find(has.begin(), has.end(), position) == has.end()) return;
        const Position sounds = fixed ? has.front() : position;
        const int turn = static_cast<int>(order_.size());
        order_.push_back({.string = string,
                          .position = sounds,
                          .turn = turn,
                          .expected_cents = 100.0 * key_number(of_harp.place, alteration_of(of_harp, sounds)),
                          .pass = pass_,
                          .turn_in_pass = turn - pass_begin_,
                          .unit = unit_,
                          .before_in_unit = turn - unit_begin_});
    }
    void end_pass()
    {
        ++pass_;
        pass_begin_ = static_cast<int>(order_.size());
    }
    void end_unit()
    {
        const int end = static_cast<int>(order_.size());
        if (end == unit_begin_) return; // the string has no such position
        for (int turn = unit_begin_; turn < end; ++turn) {
            auto& target = order_[static_cast<std::size_t>(turn)];
            const bool fixed = positions_of(layout_.kind, layout_.strings[target.string]).size() == 1;
            if (fixed) target.before_in_unit = 0; // once is as good as three times
            target.after_in_unit = fixed ? 0 : end - turn - 1;
        }
        ++unit_;
        unit_begin_ = end;
    }

    [[nodiscard]] const std::vector<std::size_t>& strings() const { return strings_; }
    [[nodiscard]] Letter letter(std::size_t string) const { return layout_.strings[string].place.letter; }
    [[nodiscard]] std::vector<OrderedTarget> order() const { return order_; }

  private:
    const HarpLayout& layout_;
    std::vector<std::size_t> strings_;
    std::vector<OrderedTarget> order_;
    int pass_ = 0, pass_begin_ = 0; // turns
    int unit_ = 0, unit_begin_ = 0;
};

} // namespace

std::vector<OrderedTarget> playing_order(const HarpLayout& layout, PlayingWay way, bool from_top)
{
    OrderBuilder builder(layout, from_top);
    const auto positions = harp_positions(layout.kind);
    const auto add_unit = [&](std::size_t string, std::span<const Position> in_positions) {
        for (const Position position : in_positions) builder.add(string, position);
        builder.end_unit();
    };
    switch (way) {
    case PlayingWay::pass_by_pass:
        for (const Position position : positions) {
            for (const auto string : builder.strings()) add_unit(string, {&position, 1});
            builder.end_pass();
        }
        break;
    case PlayingWay::string_by_string:
        for (const auto string : builder.strings()) add_unit(string, positions);
        break;
    case PlayingWay::pedal_by_pedal:
        for (const Letter letter : pedal_order)
            for (const Position position : positions) {
                for (const auto string : builder.strings())
                    if (builder.letter(string) == letter) add_unit(string, {&position, 1});
                builder.end_pass();
            }
        break;
    }
    return builder.order();
}

} // namespace harpkeep
