// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/history.hpp"
#include "db/records/timeline.hpp"
#include "records/climate_record.hpp"
#include "records/loan_record.hpp"
#include "records/note_record.hpp"
#include "records/reminder_record.hpp"
#include "records/room_record.hpp"
#include "records/spare_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"

#include <vector>

namespace harpkeep::cli {

// Records as JSON for programs. Keys carry their units; dates are ISO 8601; what is not known is null.

[[nodiscard]] Json json_of(const std::optional<Date>& date);
[[nodiscard]] Json json_of(const std::optional<Money>& money);
[[nodiscard]] Json json_of(const std::optional<StringPlace>& place);

/// The fields of a make, to be put beside others.
void put_make(Json& object, const StringMake& make);

[[nodiscard]] Json json_of(const RoomRecord& room);
[[nodiscard]] Json json_of(const StringLife& life, const Names& names);
[[nodiscard]] Json json_of(const PlannedStringRecord& planned, const Names& names);
[[nodiscard]] Json json_of(const LoanRecord& loan, const Names& names);
[[nodiscard]] Json json_of(const VisitRecord& visit, const Names& names);
[[nodiscard]] Json json_of(const ClimateSample& sample);
[[nodiscard]] Json json_of(const ClimateSummary& summary, const Names& names);
[[nodiscard]] Json json_of(const SpareStock& stock, const Names& names);
[[nodiscard]] Json json_of(const SpareMovementRecord& movement, const Names& names);
[[nodiscard]] Json json_of(const NoteRecord& note, const Names& names);
[[nodiscard]] Json json_of(const ReminderRecord& reminder, const Names& names);
[[nodiscard]] Json json_of(const db::TimelineEntry& entry);
[[nodiscard]] Json json_of(const db::ActionRecord& action);

/// An array of the records.
template <class Record, class... More>
[[nodiscard]] Json json_list(const std::vector<Record>& records, const More&... more)
{
    Json list = Json::array();
    for (const Record& record : records) list.push_back(json_of(record, more...));
    return list;
}

} // namespace harpkeep::cli
