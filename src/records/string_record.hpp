// SPDX-License-Identifier: MIT
#pragma once

#include "harp/string_place.hpp"
#include "records/money.hpp"
#include "records/record.hpp"
#include "units/date.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// What a string is: as planned, as put on, or as it lies in the drawer.
struct StringMake {
    std::string material;                ///< of the plain string or of the core: "gut", "nylon", "steel"
    std::optional<Millimetres> diameter; ///< of the plain string or of the core
    std::string wrap_material;           ///< empty: not wound
    std::optional<Millimetres> wrap_outer_diameter;
    std::optional<KilogramsPerMetre> linear_density; ///< weighed
    std::optional<KilogramsPerMetre> linear_density_uncertainty;
    std::string supplier;

    bool operator==(const StringMake&) const = default;
};

/// The string that is meant for a place of a harp.
struct PlannedString {
    Uuid harp_id;
    StringPlace place;
    StringMake make;
    std::optional<Millimetres> length; ///< sounding length when open

    bool operator==(const PlannedString&) const = default;
};
using PlannedStringRecord = Record<PlannedString>;

/// Why a string was taken off. Only `broke` is a failure; the others end the watching of a string that
/// still held.
enum class RemovalReason { broke, schedule, tone, false_string, whole_set, unknown };
[[nodiscard]] std::string_view removal_reason_name(RemovalReason reason);
[[nodiscard]] std::optional<RemovalReason> removal_reason_from_name(std::string_view name);

/// Where on its length a string broke.
enum class BreakPoint { nut, disc, lever, middle, soundboard, knot };
[[nodiscard]] std::string_view break_point_name(BreakPoint point);
[[nodiscard]] std::optional<BreakPoint> break_point_from_name(std::string_view name);

/// A physical string that somebody put on a harp.
struct MountedString {
    Uuid harp_id;
    StringPlace place;
    StringMake make;
    std::string batch;
    std::optional<Money> cost;
    std::optional<Date> put_on; ///< absent only for a string that was on when the ledger began
    /// Set for a string that was on already when the ledger began: since then it is watched. It would never
    /// have been seen had it broken before (late entry).
    std::optional<Date> watched_from;
    std::string remarks;

    bool operator==(const MountedString&) const = default;
};

struct StringRemoval {
    Uuid string_id;
    Date removed_on;
    RemovalReason reason = RemovalReason::unknown;
    std::optional<BreakPoint> broke_at; ///< only when it broke
    std::string remarks;

    bool operator==(const StringRemoval&) const = default;
};

/// A string with its end, when it has come.
struct StringLife {
    Uuid id;
    MountedString string;
    std::optional<Record<StringRemoval>> removal;
};

} // namespace harpkeep
