// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace harpkeep {

/// How a string is held when it sounds: by a pedal (flat, natural, sharp), or by a lever or the only disc of
/// a single-action harp (open, engaged).
enum class Position { flat, natural, sharp, open, engaged };

inline constexpr std::array<Position, 5> all_positions{Position::flat, Position::natural, Position::sharp,
                                                       Position::open, Position::engaged};

[[nodiscard]] constexpr std::string_view position_name(Position position)
{
    constexpr std::array<std::string_view, 5> names{"flat", "natural", "sharp", "open", "engaged"};
    return names[static_cast<std::size_t>(position)];
}

[[nodiscard]] constexpr std::optional<Position> position_from_name(std::string_view name)
{
    for (const Position position : all_positions)
        if (position_name(position) == name) return position;
    return std::nullopt;
}

/// Semitones above the open string.
[[nodiscard]] constexpr int semitones_above_open(Position position)
{
    constexpr std::array<int, 5> semitones{0, 1, 2, 0, 1};
    return semitones[static_cast<std::size_t>(position)];
}

/// The interval between two neighbouring positions of one string: lower is flat to natural or open to
/// engaged, upper is natural to sharp.
enum class Step { lower, upper };

[[nodiscard]] constexpr std::string_view step_name(Step step)
{
    return step == Step::lower ? "lower" : "upper";
}

[[nodiscard]] constexpr std::optional<Step> step_from_name(std::string_view name)
{
    if (name == "lower") return Step::lower;
    if (name == "upper") return Step::upper;
    return std::nullopt;
}

} // namespace harpkeep
