// SPDX-License-Identifier: MIT
#include "ui/support/due_calendar.hpp"

#include "db/records/visits.hpp"
#include "exchange/icalendar.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::ui {

namespace {

std::string uid_of(const DueItem& item)
{
    const std::string owner = item.reminder_id ? to_string(*item.reminder_id)
                                               : (item.harp_id ? to_string(*item.harp_id) : "ledger");
    std::string kind{due_kind_name(item.kind)};
    std::replace(kind.begin(), kind.end(), ' ', '-');
    return fmt::format("{}-{}@harpkeep", kind, owner);
}

Result<std::vector<CalendarEntry>> visit_entries(const db::Ledger& ledger,
                                                 const std::vector<HarpUpkeep>& harps)
{
    std::vector<CalendarEntry> entries;
    for (const HarpUpkeep& upkeep : harps) {
        const auto visits = db::visits_of(ledger, upkeep.harp.id);
        if (!visits) return failure(visits.error());
        for (const VisitRecord& record : *visits) {
            std::string work;
            for (const VisitWork& one : record.visit.work) work += visit_work_text(one) + "\n";
            entries.push_back({fmt::format("visit-{}@harpkeep", to_string(record.id)),
                               record.visit.visited_on, "Technician's visit: " + upkeep.harp.details.name,
                               work + record.visit.remarks, false});
        }
    }
    return entries;
}

} // namespace

Result<std::string> due_calendar(const db::Ledger& ledger, const std::vector<HarpUpkeep>& harps,
                                 const std::vector<DueItem>& items, Moment written)
{
    auto entries = visit_entries(ledger, harps);
    if (!entries) return failure(entries.error());
    for (const DueItem& item : items)
        entries->push_back({uid_of(item), item.due_on,
                            item.harp.empty() ? item.what : item.harp + ": " + item.what, item.why, true});
    return icalendar(*entries, "Harps", written);
}

} // namespace harpkeep::ui
