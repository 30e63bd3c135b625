// SPDX-License-Identifier: MIT
#include "reason/observed_string.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>

#include <array>
#include <map>

namespace harpkeep {

namespace {

constexpr std::array<std::string_view, 5> grouping_names{"octave-material", "octave", "material", "harp",
                                                         "school"};

} // namespace

std::string_view grouping_name(LifeGrouping grouping)
{
    return grouping_names[static_cast<std::size_t>(grouping)];
}

std::optional<LifeGrouping> grouping_from_name(std::string_view name)
{
    for (std::size_t i = 0; i < grouping_names.size(); ++i)
        if (grouping_names[i] == name) return static_cast<LifeGrouping>(i);
    return std::nullopt;
}

std::string life_group(LifeGrouping grouping, const std::string& harp, StringPlace place,
                       const std::string& material)
{
    switch (grouping) {
    case LifeGrouping::octave_and_material:
        return fmt::format("octave {}, {}", place.harp_octave(), material);
    case LifeGrouping::octave:
        return fmt::format("octave {}", place.harp_octave());
    case LifeGrouping::material:
        return material;
    case LifeGrouping::harp:
        return harp;
    case LifeGrouping::school:
        break;
    }
    return "all strings";
}

std::vector<LifeGroup> grouped(std::span<const ObservedString> strings, LifeGrouping grouping)
{
    std::map<std::string, std::vector<stats::LifeObservation>> groups;
    for (const auto& string : strings) {
        HARPKEEP_EXPECTS(0.0 <= string.age_at_entry_days &&
                         string.age_at_entry_days < string.age_at_exit_days);
        groups[life_group(grouping, string.harp, string.place, string.material)].push_back(
            {string.age_at_entry_days, string.age_at_exit_days, string.broke});
    }
    std::vector<LifeGroup> sorted;
    for (auto& [name, lives] : groups) sorted.push_back({name, std::move(lives)});
    return sorted;
}

} // namespace harpkeep
