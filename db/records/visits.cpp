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

/// Reads one visit after the other.
class VisitReader {
  public:
    explicit VisitReader(const Database& database)
        : work_(database.prepare(
              "SELECT place, pedal, work, parts FROM visit_work WHERE fact_no = :fact_no ORDER BY ordinal")),
          before_(database.prepare(check_near("taken_utc_ms < :limit + :most_offset",
                                              "taken_utc_ms + taken_offset_min * 60000 < :limit",
                                              "ORDER BY taken_utc_ms DESC"))),
          after_(database.prepare(check_near("taken_utc_ms >= :limit - :most_offset",
                                             "taken_utc_ms + taken_offset_min * 60000 >= :limit",
                                             "ORDER BY taken_utc_ms"))),
          on_day_(database.prepare(
              "SELECT id FROM harp_check JOIN current_content USING (fact_no) WHERE harp_no = :harp_no "
              "AND taken_utc_ms BETWEEN :from - :most_offset AND :to + :most_offset "
              "AND taken_utc_ms + taken_offset_min * 60000 >= :from "
              "AND taken_utc_ms + taken_offset_min * 60000 < :to ORDER BY taken_utc_ms"))
    {
    }

    VisitRecord read(Statement& row)
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
        visit.work = work_of(fact);
        add_checks_around(harp, record);
        return record;
    }

  private:
    static constexpr std::int64_t most_offset_ms = 18 * 3600 * std::int64_t{1000}; // by the table's CHECK

    /// The first condition lets the index find where to begin.
    static std::string check_near(const char* about, const char* exactly, const char* order)
    {
        return fmt::format("SELECT id FROM harp_check JOIN current_content USING (fact_no) "
                           "WHERE harp_no = :harp_no AND {} AND {} {} LIMIT 1",
                           about, exactly, order);
    }

    std::vector<VisitWork> work_of(FactNo fact)
    {
        work_.reset();
        work_.bind(":fact_no", fact.value);
        std::vector<VisitWork> works;
        while (work_.step()) {
            VisitWork work;
            if (const auto place = work_.optional_integer()) work.place = place_from_code(*place);
            if (const auto pedal = work_.optional_text()) work.pedal = letter_from_name(pedal->front());
            work.work = work_.text();
            work.parts = work_.text();
            works.push_back(std::move(work));
        }
        return works;
    }

    static std::optional<Uuid> found(Statement& query, ThingNo harp, std::int64_t limit_ms)
    {
        query.reset();
        query.bind(":harp_no", harp.value).bind(":limit", limit_ms).bind(":most_offset", most_offset_ms);
        if (!query.step()) return std::nullopt;
        return query.uuid();
    }

    std::vector<Uuid> checks_on(ThingNo harp, std::int64_t midnight_ms)
    {
        on_day_.reset();
        on_day_.bind(":harp_no", harp.value)
            .bind(":from", midnight_ms)
            .bind(":to", midnight_ms + ms_per_day)
            .bind(":most_offset", most_offset_ms);
        std::vector<Uuid> checks;
        while (on_day_.step()) checks.push_back(on_day_.uuid());
        return checks;
    }

    /// A check on the day of the visit, by the check's own offset, counts as after it from noon on: people
    /// check in the morning what the technician will mend, and after lunch what was mended. Where that leaves
    /// one side empty, two checks of the day are one before and one after.
    void add_checks_around(ThingNo harp, VisitRecord& record)
    {
        const std::int64_t midnight_ms = days_since_epoch(record.visit.visited_on) * ms_per_day;
        record.check_before = found(before_, harp, midnight_ms + ms_per_day / 2);
        record.check_after = found(after_, harp, midnight_ms + ms_per_day / 2);
        if (record.check_before && record.check_after) return;
        const auto on_day = checks_on(harp, midnight_ms);
        if (on_day.size() < 2) return;
        const auto first = record.check_after ? on_day.begin() : on_day.end() - 2;
        record.check_before = first[0];
        record.check_after = first[1];
    }

    Statement work_, before_, after_, on_day_;
};

void insert_visit(const Action& action, FactNo fact, const Visit& visit)
{
    const Database& database = action.database();
    const ThingNo harp = current_thing(database, visit.harp_id, "harp");
    refuse_future(visit.visited_on, action.now(), "the day of the visit");
    expect_short(visit.technician, "the technician's name");
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
        VisitReader reader{database};
        std::vector<VisitRecord> visits;
        while (query.step()) visits.push_back(reader.read(query));
        return visits;
    });
}

Result<VisitRecord> visit_with_id(const Ledger& ledger, const Uuid& visit_id)
{
    return snapshot(ledger, "looking for a visit", [&] {
        auto query = ledger.database().prepare(select_visits() + "WHERE id = :id");
        query.bind(":id", visit_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such visit");
        return VisitReader{ledger.database()}.read(query);
    });
}

} // namespace harpkeep::db
