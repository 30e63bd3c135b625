// SPDX-License-Identifier: MIT
#pragma once

#include "records/record.hpp"
#include "units/date.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace harpkeep {

/// Due once, on a date.
struct DueOnDate {
    Date date;
    bool operator==(const DueOnDate&) const = default;
};

/// What the months of a repeated reminder are counted from.
enum class CountedFrom { visit, check, done };
[[nodiscard]] std::string_view counted_from_name(CountedFrom from);
[[nodiscard]] std::optional<CountedFrom> counted_from_from_name(std::string_view name);

/// Due so many months after the last visit, the last check, or the last time it was done; when there was none
/// yet, after `start`.
struct DueAfterMonths {
    int months = 12;
    CountedFrom counted_from = CountedFrom::done;
    Date start;
    bool operator==(const DueAfterMonths&) const = default;
};

/// Due when some step has moved by so much since the last visit.
struct DueByDrift {
    Cents drift;
    bool operator==(const DueByDrift&) const = default;
};

using ReminderRule = std::variant<DueOnDate, DueAfterMonths, DueByDrift>;

struct Reminder {
    std::optional<Uuid> harp_id;
    std::string words;
    ReminderRule rule;

    bool operator==(const Reminder&) const = default;
};

/// A reminder with the last time it was done.
struct ReminderRecord {
    Uuid id;
    Reminder reminder;
    std::optional<Date> last_done;
};

} // namespace harpkeep
