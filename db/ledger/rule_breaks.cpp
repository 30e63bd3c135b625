// SPDX-License-Identifier: MIT
#include "db/ledger/rule_breaks.hpp"

#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "harp/string_place.hpp"
#include "units/date.hpp"

#include <array>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;

using Conflicts = std::vector<Conflict>;

/// Each row of the query: the key of a thing, then two texts for {0} and {1} of `words`; {2} is its handle.
void find_each(const Database& database, const std::string& sql, const std::string& kind, const char* words,
               Conflicts& found)
{
    auto query = database.prepare(sql);
    while (query.step()) {
        const Uuid id = query.uuid();
        const std::string first = query.text();
        const std::string second = query.text();
        found.push_back({kind, {id}, fmt::format(fmt::runtime(words), first, second, handle_of(id))});
    }
}

/// A partial date means its last day here, so that only what is certain is told.
std::string ends_before(const char* end, const char* begin)
{
    return fmt::format("substr({} || '-99-99', 1, 10) < {}", end, begin);
}

void find_reversed_dates(const Database& database, Conflicts& found)
{
    constexpr const char* kind = "an end before its beginning";
    find_each(
        database,
        "SELECT c.id, r.removed_on, coalesce(m.put_on, m.watched_from) FROM string_removal r "
        "JOIN current_content c USING (fact_no) JOIN current_fact k ON k.thing_no = r.string_no "
        "JOIN mounted_string m ON m.fact_no = k.content_no WHERE " +
            ends_before("r.removed_on", "coalesce(m.put_on, m.watched_from)"),
        kind,
        "a string came off on {0}, before it was put on ({1}); void the removal {2}, or correct the string",
        found);
    find_each(
        database,
        "SELECT c.id, r.returned_on, l.from_on FROM loan_return r JOIN current_content c USING (fact_no) "
        "JOIN current_fact k ON k.thing_no = r.loan_no JOIN loan l ON l.fact_no = k.content_no WHERE " +
            ends_before("r.returned_on", "l.from_on"),
        kind, "a harp came back on {0}, before it was lent ({1}); void the return {2}, or correct the loan",
        found);
    find_each(database,
              "SELECT c.id, l.until_on, l.from_on FROM loan l JOIN current_content c USING (fact_no) WHERE " +
                  ends_before("l.until_on", "l.from_on"),
              kind, "a loan ends on {0}, before it begins ({1}); correct the loan {2}", found);
    find_each(
        database,
        "SELECT c.id, m.watched_from, m.put_on FROM mounted_string m JOIN current_content c USING (fact_no) "
        "WHERE " +
            ends_before("m.watched_from", "m.put_on"),
        kind, "a string was first seen on {0}, before it was put on ({1}); correct the string {2}", found);
}

void find_missing_places(const Database& database, Conflicts& found)
{
    const std::array<std::array<const char*, 2>, 4> tables{
        {{"mounted_string x JOIN current_content c USING (fact_no)", "string"},
         {"planned_string x JOIN current_content c USING (fact_no)", "plan"},
         {"visit x JOIN current_content c USING (fact_no) JOIN visit_work w USING (fact_no)", "visit"},
         {"(SELECT fact_no, about_no AS harp_no, place FROM note) x JOIN current_content c USING (fact_no)",
          "note"}}};
    for (const auto& [rows, noun] : tables) {
        auto query = database.prepare(fmt::format(
            "WITH layout AS MATERIALIZED (SELECT k.thing_no AS harp_no, s.place FROM harp_string s "
            "JOIN current_content k USING (fact_no)), used AS MATERIALIZED (SELECT c.id, x.harp_no, {}place "
            "FROM {}) "
            "SELECT u.id, u.place FROM used u LEFT JOIN layout l ON l.harp_no = u.harp_no AND l.place = "
            "u.place "
            "WHERE u.place IS NOT NULL AND l.place IS NULL AND (u.harp_no IS NULL OR u.harp_no IN (SELECT "
            "harp_no "
            "FROM layout)) ORDER BY u.id",
            std::string_view{noun} == "visit" ? "w." : "x.", rows));
        while (query.step()) {
            const Uuid id = query.uuid();
            const StringPlace place = place_from_diatonic_index(query.small_integer());
            found.push_back(
                {"a place that the harp does not have",
                 {id},
                 fmt::format("the {} {} speaks of {}, which its harp does not have; correct or void it, "
                             "or correct the compass of the harp",
                             noun, handle_of(id), harp_name(place))});
        }
    }
}

void find_negative_stock(const Database& database, Conflicts& found)
{
    auto query = database.prepare(
        "SELECT max(c.id), place, material, sum(change) FROM spare_movement JOIN current_content c USING "
        "(fact_no) "
        "GROUP BY harp_no, place, material, diameter_mm, wrap_material, wrap_outer_mm HAVING sum(change) < 0 "
        "ORDER BY 1");
    while (query.step()) {
        const Uuid id = query.uuid();
        const std::string place = harp_name(place_from_diatonic_index(query.small_integer()));
        const std::string material = query.text();
        found.push_back(
            {"more spares used than there were",
             {id},
             fmt::format("{} more {} strings for {} were used than there were; count what is there with "
                         "`harpkeep spare count {}`",
                         -query.integer(), material, place, place)});
    }
}

void find_empty_harps(const Database& database, Conflicts& found)
{
    find_each(database,
              "SELECT id, name, '' FROM harp h JOIN current_content USING (fact_no) "
              "WHERE NOT EXISTS (SELECT 1 FROM harp_string s WHERE s.fact_no = h.fact_no)",
              "a harp without strings",
              "the harp {0} has no string places; give its compass with `harpkeep harp "
              "change {2} --lowest 7C --highest 0G`",
              found);
}

} // namespace

void find_rule_breaks(const Database& database, Conflicts& found)
{
    find_reversed_dates(database, found);
    find_missing_places(database, found);
    find_negative_stock(database, found);
    find_empty_harps(database, found);
}

Conflicts find_future_dates(const Database& database, Moment now)
{
    constexpr std::array<std::array<const char*, 2>, 11> dates{{{"harp", "left_on"},
                                                                {"placement", "since_on"},
                                                                {"loan", "from_on"},
                                                                {"loan_return", "returned_on"},
                                                                {"mounted_string", "put_on"},
                                                                {"mounted_string", "watched_from"},
                                                                {"string_removal", "removed_on"},
                                                                {"visit", "visited_on"},
                                                                {"spare_movement", "moved_on"},
                                                                {"note", "noted_on"},
                                                                {"reminder_done", "done_on"}}};
    const std::string today = iso_date(local_date(now));
    Conflicts found;
    for (const auto& [table, column] : dates)
        find_each(database,
                  fmt::format("SELECT c.id, x.{1}, '{2}' FROM {0} x JOIN current_content c USING (fact_no) "
                              "WHERE substr(x.{1} || '-01-01', 1, 10) > '{2}'",
                              table, column, today),
                  "a date in the future", "{0} lies in the future (today is {1})", found);
    for (const char* rows :
         {"harp_check x JOIN current_content c USING (fact_no)",
          "climate_series JOIN current_content c USING (fact_no) JOIN climate_sample x USING "
          "(fact_no)"})
        find_each(database,
                  fmt::format(
                      "SELECT DISTINCT c.id, strftime('%Y-%m-%d', x.taken_utc_ms / 1000, 'unixepoch'), '{}' "
                      "FROM {} WHERE x.taken_utc_ms > {}",
                      today, rows, now.utc_ms + ms_per_day),
                  "a date in the future",
                  "{0} lies in the future (today is {1}); see to the clock of the device", found);
    return found;
}

} // namespace harpkeep::db
