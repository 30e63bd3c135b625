// SPDX-License-Identifier: MIT
#include "records/string_record.hpp"

#include <array>

namespace harpkeep {

namespace {

constexpr std::array<std::string_view, 6> reason_names{"broke", "schedule", "tone",
                                                       "false", "set",      "unknown"};
constexpr std::array<std::string_view, 6> point_names{"nut", "disc", "lever", "middle", "soundboard", "knot"};

template <class Enum, std::size_t Size>
std::optional<Enum> named(const std::array<std::string_view, Size>& names, std::string_view name)
{
    for (std::size_t i = 0; i < Size; ++i)
        if (names[i] == name) return static_cast<Enum>(i);
    return std::nullopt;
}

} // namespace

std::string_view removal_reason_name(RemovalReason reason)
{
    return reason_names[static_cast<std::size_t>(reason)];
}

std::optional<RemovalReason> removal_reason_from_name(std::string_view name)
{
    return named<RemovalReason>(reason_names, name);
}

std::string_view break_point_name(BreakPoint point)
{
    return point_names[static_cast<std::size_t>(point)];
}

std::optional<BreakPoint> break_point_from_name(std::string_view name)
{
    return named<BreakPoint>(point_names, name);
}

} // namespace harpkeep
