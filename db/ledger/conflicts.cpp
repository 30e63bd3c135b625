// SPDX-License-Identifier: MIT
#include "db/ledger/conflicts.hpp"

#include "db/ledger/catalogue.hpp"
#include "db/ledger/rule_breaks.hpp"
#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "harp/string_place.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

using Conflicts = std::vector<Conflict>;

/// More than one fact of a thing that nothing supersedes: it was corrected, or corrected and voided, on two
/// computers at once.
void find_two_statements(const Database& database, Conflicts& found)
{
    auto query =
        database.prepare("SELECT t.id, t.kind, sum(h.effect = 'void') FROM head_fact h JOIN thing t USING "
                         "(thing_no) GROUP BY h.thing_no HAVING count(*) > 1 ORDER BY t.id");
    while (query.step()) {
        const Uuid id = query.uuid();
        const std::string kind = query.text();
        const bool voided = query.integer() > 0;
        found.push_back(
            {"two statements",
             {id},
             fmt::format("the {0} {1} was {2} on two computers; the younger statement counts. `harpkeep "
                         "history --of {1}` shows both; correct or void it once more to settle it",
                         kind, handle_of(id), voided ? "corrected and voided" : "corrected")});
    }
}

/// Two things that share what must be one's own. The query gives two ids and a name for both.
void find_pairs(const Database& database, const std::string& sql, const std::string& kind,
                const std::string& words, Conflicts& found)
{
    auto query = database.prepare(sql);
    while (query.step()) {
        const Uuid first = query.uuid();
        const Uuid second = query.uuid();
        const std::string name = query.text();
        found.push_back(
            {kind,
             {first, second},
             fmt::format(fmt::runtime(words), fmt::arg("name", name), fmt::arg("first", handle_of(first)),
                         fmt::arg("second", handle_of(second)))});
    }
}

void find_same_names(const Database& database, Conflicts& found)
{
    for (const char* noun : {"harp", "room"})
        find_pairs(
            database,
            fmt::format(
                "SELECT a.id, b.id, a.name FROM (SELECT * FROM {0} JOIN current_content USING (fact_no)) a "
                "JOIN (SELECT * FROM {0} JOIN current_content USING (fact_no)) b "
                "ON b.name_key = a.name_key AND a.id < b.id ORDER BY a.id, b.id",
                noun),
            fmt::format("two {}s of one name", noun),
            fmt::format("two {0}s are called {{name}} ({{first}} and {{second}}); give one another name with "
                        "`harpkeep {0} change`, or void one when it is the same {0} noted twice",
                        noun),
            found);
}

/// Two ends of one beginning: a string taken off twice, a loan returned twice. The first noted counts.
void find_two_ends(const Database& database, Conflicts& found)
{
    const auto ends = [&](const char* table, const char* column, const char* kind, const char* words) {
        find_pairs(
            database,
            fmt::format(
                "SELECT a.id, b.id, '' FROM (SELECT * FROM {0} JOIN current_content USING (fact_no)) a "
                "JOIN (SELECT * FROM {0} JOIN current_content USING (fact_no)) b "
                "ON b.{1} = a.{1} AND a.id < b.id ORDER BY a.id, b.id",
                table, column),
            kind, words, found);
    };
    ends("string_removal", "string_no", "a string taken off twice",
         "one string was noted as taken off twice ({first} and {second}); the first counts. Void the wrong "
         "one");
    ends("loan_return", "loan_no", "a loan returned twice",
         "one loan was noted as returned twice ({first} and {second}); the first counts. Void the wrong one");
}

/// Strings of one place whose times certainly overlap: partial dates are read as far apart as they can be.
void find_crowded_places(const Database& database, Conflicts& found)
{
    auto query = database.prepare(
        "WITH life AS (SELECT c.id, m.harp_no, m.place, coalesce(m.put_on, m.watched_from) AS begins, "
        "  (SELECT min(r.removed_on) FROM string_removal r JOIN current_content rc USING (fact_no) "
        "    WHERE r.string_no = c.thing_no) AS ends "
        "  FROM mounted_string m JOIN current_content c USING (fact_no)) "
        "SELECT a.id, b.id, a.place FROM life a JOIN life b ON b.harp_no = a.harp_no AND b.place = a.place "
        "AND (a.begins < b.begins OR (a.begins = b.begins AND a.id < b.id)) "
        // '-99' makes a month or a year end after all its days, and sorts as text does
        "WHERE a.ends IS NULL OR substr(b.begins || '-99-99', 1, 10) < substr(a.ends || '-00-00', 1, 10) "
        "ORDER BY a.id, b.id");
    while (query.step()) {
        const Uuid first = query.uuid();
        const Uuid second = query.uuid();
        const StringPlace place = place_from_diatonic_index(query.small_integer());
        found.push_back(
            {"two strings on one place",
             {first, second},
             fmt::format("{0} carries two strings at one time ({1} and {2}); note when the first came off "
                         "with `harpkeep string off {0}`, or void the one that was noted twice",
                         harp_name(place), handle_of(first), handle_of(second))});
    }
}

void find_crowded_loans(const Database& database, Conflicts& found)
{
    find_pairs(
        database,
        "WITH life AS (SELECT c.id, l.harp_no, l.from_on AS begins, "
        "  (SELECT min(r.returned_on) FROM loan_return r JOIN current_content rc USING (fact_no) "
        "    WHERE r.loan_no = c.thing_no) AS ends FROM loan l JOIN current_content c USING (fact_no)) "
        "SELECT a.id, b.id, '' FROM life a JOIN life b ON b.harp_no = a.harp_no "
        "AND (a.begins < b.begins OR (a.begins = b.begins AND a.id < b.id)) "
        "WHERE a.ends IS NULL OR substr(b.begins || '-99-99', 1, 10) < substr(a.ends || '-00-00', 1, 10) "
        "ORDER BY a.id, b.id",
        "two loans of one harp",
        "one harp is lent to two people at one time ({first} and {second}); note its return, or void one",
        found);
}

void find_two_plans(const Database& database, Conflicts& found)
{
    find_pairs(
        database,
        "SELECT a.id, b.id, '' FROM (SELECT * FROM planned_string JOIN current_content USING (fact_no)) a "
        "JOIN (SELECT * FROM planned_string JOIN current_content USING (fact_no)) b "
        "ON b.harp_no = a.harp_no AND b.place = a.place AND a.id < b.id ORDER BY a.id, b.id",
        "two plans for one place",
        "a place was planned on two computers ({first} and {second}); the younger plan counts. Void the "
        "wrong one",
        found);
    find_pairs(
        database,
        "SELECT a.id, b.id, a.name FROM (SELECT * FROM setting JOIN current_content USING (fact_no)) a "
        "JOIN (SELECT * FROM setting JOIN current_content USING (fact_no)) b "
        "ON b.name = a.name AND b.harp_no IS a.harp_no AND a.id < b.id ORDER BY a.id, b.id",
        "two settings of one name",
        "{name} was set on two computers ({first} and {second}); the younger counts. Void the wrong one",
        found);
}

/// Things that hold and need a thing that was voided on another computer. Notes may outlive what they are
/// about.
void find_orphans(const Database& database, Conflicts& found)
{
    for (const TableInfo& table : catalogue(database)) {
        if (!table.is_content()) continue;
        for (const Column& column : table.columns) {
            if (column.points != Points::to_thing || column.name == "about_no") continue;
            auto query = database.prepare(
                fmt::format("SELECT c.id, t.id, t.kind FROM {} x JOIN current_content c USING (fact_no) "
                            "JOIN thing t ON t.thing_no = x.{} WHERE NOT EXISTS "
                            "(SELECT 1 FROM current_fact f WHERE f.thing_no = t.thing_no) ORDER BY c.id",
                            table.name, column.name));
            while (query.step()) {
                const Uuid child = query.uuid();
                const Uuid parent = query.uuid();
                found.push_back(
                    {"something of a void thing",
                     {child, parent},
                     fmt::format("{} of the {} {} holds, but that was voided on another computer; void it "
                                 "too, or undo the voiding there",
                                 handle_of(child), query.text(), handle_of(parent))});
            }
        }
    }
}

} // namespace

std::vector<Conflict> find_conflicts(const Database& database)
{
    Conflicts found;
    find_two_statements(database, found);
    find_same_names(database, found);
    find_crowded_places(database, found);
    find_two_ends(database, found);
    find_crowded_loans(database, found);
    find_two_plans(database, found);
    find_orphans(database, found);
    find_rule_breaks(database, found);
    return found;
}

Result<std::vector<Conflict>> conflicts(const Ledger& ledger)
{
    return snapshot(ledger, "looking for conflicts", [&] { return find_conflicts(ledger.database()); });
}

} // namespace harpkeep::db
