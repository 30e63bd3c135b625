// SPDX-License-Identifier: MIT
#pragma once

#include "harp/string_place.hpp"
#include "stats/life_observation.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Days in a year, where years are only a unit of exposure.
inline constexpr double days_per_year = 365.25;

/// A string that is or was on a harp, as far as it was watched.
///
/// Given  0 <= age_at_entry_days < age_at_exit_days. A string that was on the harp already when the log began
///        enters at the age it had then; one with an unknown date of mounting cannot be used. Only breaking
///        counts as the end of a life: a string changed on schedule, for its tone, because it was false, or
///        with a whole set still held, and so does one that is on the harp today.
struct ObservedString {
    std::string harp;
    StringPlace place;
    std::string material;
    double age_at_entry_days = 0.0;
    double age_at_exit_days = 0.0;
    bool broke = false;
    std::string broke_at; ///< where on its length, when noted: "disc", "nut"
};

/// Which strings learn from one another.
enum class LifeGrouping {
    octave_and_material, ///< harp octave 3, gut: the default, as both matter
    octave,
    material,
    harp,
    school, ///< all strings of the ledger together
};

[[nodiscard]] std::string_view grouping_name(LifeGrouping grouping);
[[nodiscard]] std::optional<LifeGrouping> grouping_from_name(std::string_view name);

/// The name of the group a string belongs to: "octave 3, gut".
[[nodiscard]] std::string life_group(LifeGrouping grouping, const std::string& harp, StringPlace place,
                                     const std::string& material);

/// Strings of one group.
struct LifeGroup {
    std::string name;
    std::vector<stats::LifeObservation> lives; ///< in days
};

/// Sorts strings into their groups; groups by name.
[[nodiscard]] std::vector<LifeGroup> grouped(std::span<const ObservedString> strings, LifeGrouping grouping);

} // namespace harpkeep
