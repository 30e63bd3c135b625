// SPDX-License-Identifier: MIT
#pragma once

#include "units/date.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// A point in time, and how far the clock on the wall there was ahead of UTC. The clock is read by the
/// programs in ui/ only and passed in.
struct Moment {
    std::int64_t utc_ms = 0; ///< milliseconds since 1970-01-01T00:00:00Z, leap seconds not counted
    int offset_minutes = 0;  ///< local time minus UTC, -18 h to +18 h

    bool operator==(const Moment&) const = default;
    /// By the point in time; the offset does not matter.
    [[nodiscard]] constexpr bool is_before(Moment other) const { return utc_ms < other.utc_ms; }
};

/// The date on the wall at that moment.
[[nodiscard]] Date local_date(Moment moment);

/// The moment at which the wall shows `date` and this time of day.
[[nodiscard]] Moment moment_at(Date date, int hour, int minute, int offset_minutes);

/// "2026-03-04T18:05:00+01:00", with ".250" after the seconds when there are milliseconds (RFC 3339, 5.6).
[[nodiscard]] std::string iso_time(Moment moment);
/// "2026-03-04 18:05", local time, for people.
[[nodiscard]] std::string short_time(Moment moment);
/// The inverse of iso_time(); the offset must be there ("Z" is +00:00), the seconds may be left out.
[[nodiscard]] std::optional<Moment> moment_from_iso(std::string_view text);

} // namespace harpkeep
