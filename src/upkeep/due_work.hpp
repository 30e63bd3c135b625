// SPDX-License-Identifier: MIT
#pragma once

#include "records/harp_record.hpp"
#include "records/loan_record.hpp"
#include "records/reminder_record.hpp"
#include "records/string_record.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// After how many months work comes round again. All can be set by the owner.
struct UpkeepSettings {
    /// "Yearly for professionals, otherwise every second year" (pages "Harp - frequently asked questions" and
    /// "What is a harp regulation anyway?"); the longer of the two.
    int regulation_months = 24;
    /// A new harp after its first year (same pages).
    int first_regulation_months = 12;
    /// This project's own choice.
    int check_months = 6;
    /// Octaves 0 to 2: yearly or every two years ("Guide to string replacement", a page title).
    int treble_string_months = 24;
    /// Wires: every one to three years ("How often should I change my bass wires", a page title).
    int wire_months = 36;
};

/// What is known of one harp, as far as work can follow from it.
struct HarpUpkeep {
    HarpRecord harp;
    std::optional<Date> last_visit;
    std::optional<Date> last_check;
    std::vector<StringLife> strings_on; ///< the strings that are on now
    std::vector<StringPlace> bare;      ///< places whose string came off and that got no other
    std::vector<LoanRecord> open_loans;
    /// The greatest change of a step since the first check after the last visit.
    std::optional<Cents> drift_since_visit;
};

enum class DueKind { regulation, check, treble_strings, wires, bare_place, loan, reminder };
[[nodiscard]] std::string_view due_kind_name(DueKind kind);

/// Something that needs doing.
struct DueItem {
    DueKind kind = DueKind::reminder;
    std::optional<Uuid> harp_id;
    std::string harp; ///< its name; empty when it is about no harp
    Date due_on;
    std::string what;
    std::string why;
    std::vector<StringPlace> places; ///< when it is about strings
    std::optional<Uuid> reminder_id; ///< when a reminder asks for it
};

/// What needs doing until a date, the longest due first.
///
/// Given    harps      those that are not gone; reminders of any harp or of none
///          until      due on that day or before
///          today      what has no date of its own (a bare place, drift) is due today
[[nodiscard]] std::vector<DueItem> due_work(const std::vector<HarpUpkeep>& harps,
                                            const std::vector<ReminderRecord>& reminders,
                                            const UpkeepSettings& settings, Date today, Date until);

} // namespace harpkeep
