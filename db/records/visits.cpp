// SPDX-License-Identifier: MIT
#include "db/records/visits.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;

std::string select_visits()
{
    return fmt::format(
        "SELECT id, fact_no, harp_no, {}, visited_on, technician, cost_minor, cost_currency, remarks "
        "FROM visit v JOIN current_content USING (fact_no) ",
        id_of("v.harp_no"));
}

std::vector<VisitWork> work_of(const Database& database, FactNo fact)
{
    auto query = database.prepare(
        "SELECT place, pedal, work, parts FROM visit_work WHERE fact_no = :fact_no ORDER BY ordinal");
    query.bind(":fact_no", fact.value);
    std::vector<VisitWork> works;
    while (query.step()) {
        VisitWork work;
        if (const auto place = query.optional_integer()) work.place = place_from_code(*place);
        if (const auto pedal = query.optional_text()) work.pedal = letter_from_name(pedal->front());
        work.work = query.text();
        work.parts = query.text();
        works.push_back(std::move(work));
    }
    return works;
}

std::optional<Uuid> check_near(const Database& database, ThingNo harp, const char* condition,
                               std::int64_t limit_ms)
{
    auto query =
        database.prepare(fmt::format("SELECT id FROM harp_check JOIN current_content USING (fact_no) "
                                     "WHERE harp_no = :harp_no AND {} LIMIT 1",
                                     condition));
    query.bind(":harp_no", harp.value).bind(":limit", limit_ms);
    if (!query.step()) return std::nullopt;
    return query.uuid();
}

/// Local midnight by the check's own offset, so that a check on the day of the visit counts as after it only
/// from noon on: people check in the morning what the technician will mend, and after lunch what was mended.
void add_checks_around(const Database& database, ThingNo harp, VisitRecord& record)
{
    const std::int64_t noon_ms = days_since_epoch(record.visit.visited_on) * ms_per_day + ms_per_day / 2;
    constexpr const char* before =
        "taken_utc_ms + taken_offset_min * 60000 < :limit ORDER BY taken_utc_ms DESC";
    constexpr const char* after = "taken_utc_ms + taken_offset_min * 60000 >= :limit ORDER BY taken_utc_ms";
    record.check_before = check_near(database, harp, before, noon_ms);
    record.check_after = check_near(database, harp, after, noon_ms);
}

VisitRecord read_visit(const Database& database, Statement& row)
{
    VisitRecord record;
    record.id = row.uuid();
    const FactNo fact{row.integer()};
    const ThingNo harp{row.integer()};
    Visit& visit = record.visit;
    visit.harp_id = row.uuid();
    visit.visited_on = read_date(row);
    visit.technician = row.text();
    visit.cost = read_money(row);
    visit.remarks = row.text();
    visit.work = work_of(database, fact);
    add_checks_around(database, harp, record);
    return record;
}

void insert_visit(const Action& action, FactNo fact, const Visit& visit)
{
    const Database& database = action.database();
    const ThingNo harp = current_thing(database, visit.harp_id, "harp");
    refuse_future(visit.visited_on, action.now(), "the day of the visit");
    Insert insert{database, "visit"};
    insert.set("fact_no", fact.value)
        .set("harp_no", harp.value)
        .set("visited_on", iso_date(visit.visited_on))
        .set("technician", visit.technician);
    set_money(insert, "cost", visit.cost);
    insert.set("remarks", visit.remarks).run();
    int ordinal = 0;
    for (const VisitWork& work : visit.work) {
        if (work.place) expect_place(database, harp, *work.place);
        if (work.work.empty()) fail(ErrorCode::invalid_argument, "say what was done");
        if ((work.work + work.parts).find_first_of("[]\r\n") != std::string::npos)
            fail(ErrorCode::invalid_argument,
                 "work and parts are each written on one line, without brackets");
        Insert{database, "visit_work"}
            .set("fact_no", fact.value)
            .set("ordinal", ordinal++)
            .set("place", work.place ? std::optional{work.place->diatonic_index()} : std::nullopt)
            .set("pedal", work.pedal ? std::optional{std::string(1, letter_name(*work.pedal))} : std::nullopt)
            .set("work", work.work)
            .set("parts", work.parts)
            .run();
    }
}

} // namespace

Result<Uuid> add_visit(Ledger& ledger, const Author& author, const Visit& visit)
{
    return added(ledger, author, "visit", "noted a visit",
                 [&](const Action& action, FactNo fact) { insert_visit(action, fact, visit); });
}

Result<void> change_visit(Ledger& ledger, const Author& author, const Uuid& visit_id, const Visit& visit,
                          const std::string& reason)
{
    return changed(ledger, author, "visit", visit_id, "corrected a visit", reason,
                   [&](const Action& action, FactNo fact) { insert_visit(action, fact, visit); });
}

Result<std::vector<VisitRecord>> visits_of(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the visits to a harp", [&] {
        const Database& database = ledger.database();
        auto query = database.prepare(select_visits() + "WHERE harp_no = :harp_no ORDER BY visited_on, id");
        query.bind(":harp_no", current_thing(database, harp_id, "harp").value);
        std::vector<VisitRecord> visits;
        while (query.step()) visits.push_back(read_visit(database, query));
        return visits;
    });
}

Result<VisitRecord> visit_with_id(const Ledger& ledger, const Uuid& visit_id)
{
    return snapshot(ledger, "looking for a visit", [&] {
        auto query = ledger.database().prepare(select_visits() + "WHERE id = :id");
        query.bind(":id", visit_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such visit");
        return read_visit(ledger.database(), query);
    });
}

} // namespace harpkeep::db
