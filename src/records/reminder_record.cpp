// SPDX-License-Identifier: MIT
#include "records/reminder_record.hpp"

#include <array>

namespace harpkeep {

namespace {
constexpr std::array<std::string_view, 3> names{"visit", "check", "done"};
}

std::string_view counted_from_name(CountedFrom from)
{
    return names[static_cast<std::size_t>(from)];
}

std::optional<CountedFrom> counted_from_from_name(std::string_view name)
{
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == name) return static_cast<CountedFrom>(i);
    return std::nullopt;
}

} // namespace harpkeep
