// SPDX-License-Identifier: MIT
#include "measure/playing_order.hpp"

#include "harp/expected_pitch.hpp"

#include <algorithm>

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
        order_.push_back(
            {string, sounds, turn_++, 100.0 * key_number(of_harp.place, alteration_of(of_harp, sounds))});
    }

    [[nodiscard]] const std::vector<std::size_t>& strings() const { return strings_; }
    [[nodiscard]] Letter letter(std::size_t string) const { return layout_.strings[string].place.letter; }
    [[nodiscard]] std::vector<OrderedTarget> order() const { return order_; }

  private:
    const HarpLayout& layout_;
    std::vector<std::size_t> strings_;
    std::vector<OrderedTarget> order_;
    int turn_ = 0;
};

} // namespace

std::vector<OrderedTarget> playing_order(const HarpLayout& layout, PlayingWay way, bool from_top)
{
    OrderBuilder builder(layout, from_top);
    const auto positions = harp_positions(layout.kind);
    switch (way) {
    case PlayingWay::pass_by_pass:
        for (const Position position : positions)
            for (const auto string : builder.strings()) builder.add(string, position);
        break;
    case PlayingWay::string_by_string:
        for (const auto string : builder.strings())
            for (const Position position : positions) builder.add(string, position);
        break;
    case PlayingWay::pedal_by_pedal:
        for (const Letter letter : pedal_order)
            for (const Position position : positions)
                for (const auto string : builder.strings())
                    if (builder.letter(string) == letter) builder.add(string, position);
        break;
    }
    return builder.order();
}

} // namespace harpkeep
