// SPDX-License-Identifier: MIT
#include "records/spare_record.hpp"

#include <array>

namespace harpkeep {

namespace {
constexpr std::array<std::string_view, 4> cause_names{"bought", "used", "lost", "counted"};
}

std::string_view spare_cause_name(SpareCause cause)
{
    return cause_names[static_cast<std::size_t>(cause)];
}

std::optional<SpareCause> spare_cause_from_name(std::string_view name)
{
    for (std::size_t i = 0; i < cause_names.size(); ++i)
        if (cause_names[i] == name) return static_cast<SpareCause>(i);
    return std::nullopt;
}

} // namespace harpkeep
