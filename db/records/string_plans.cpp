// SPDX-License-Identifier: MIT
#include "db/records/string_plans.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

/// The plan of a place that holds now. Two computers may have planned one each: then the younger stands, and
/// the ledger lists the conflict.
std::optional<ThingNo> plan_at(const Database& database, ThingNo harp, StringPlace place)
{
    auto query = database.prepare("SELECT thing_no FROM planned_string JOIN current_content USING (fact_no) "
                                  "WHERE harp_no = :harp_no AND place = :place ORDER BY id DESC LIMIT 1");
    query.bind(":harp_no", harp.value).bind(":place", place.diatonic_index());
    if (!query.step()) return std::nullopt;
    return ThingNo{query.integer()};
}

void insert_plan(Action& action, const PlannedString& string)
{
    const Database& database = action.database();
    const ThingNo harp = current_thing(database, string.harp_id, "harp");
    expect_place(database, harp, string.place);
    const auto before = plan_at(database, harp, string.place);
    const FactNo fact = before ? action.correct(*before, "") : action.add("planned_string").fact;
    Insert insert{database, "planned_string"};
    insert.set("fact_no", fact.value).set("harp_no", harp.value).set("place", string.place.diatonic_index());
    set_make(insert, string.make);
    insert.set("length_mm", string.length ? std::optional{string.length->value()} : std::nullopt).run();
}

} // namespace

Result<void> plan_strings(Ledger& ledger, const Author& author, const std::vector<PlannedString>& strings)
{
    const std::string what =
        fmt::format("planned {} string{}", strings.size(), strings.size() == 1 ? "" : "s");
    return guarded_action(what, [&] {
        Action action{ledger, author, what};
        for (const PlannedString& string : strings) insert_plan(action, string);
        action.commit();
    });
}

Result<std::vector<PlannedStringRecord>> string_plan(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading the stringing plan", [&] {
        const Database& database = ledger.database();
        auto query =
            database.prepare(fmt::format("SELECT id, place, {}, length_mm FROM planned_string "
                                         "JOIN current_content USING (fact_no) WHERE harp_no = :harp_no "
                                         "ORDER BY place, id",
                                         make_columns));
        query.bind(":harp_no", current_thing(database, harp_id, "harp").value);
        std::vector<PlannedStringRecord> plan;
        while (query.step()) {
            PlannedStringRecord record;
            record.id = query.uuid();
            record.details.harp_id = harp_id;
            record.details.place = place_from_code(query.integer());
            record.details.make = read_make(query);
            if (const auto length = query.optional_real()) record.details.length = Millimetres{*length};
            if (!plan.empty() && plan.back().details.place == record.details.place)
                plan.back() = std::move(record);
            else
                plan.push_back(std::move(record));
        }
        return plan;
    });
}

} // namespace harpkeep::db
