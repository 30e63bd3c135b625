// SPDX-License-Identifier: MIT
#include "db/records/upkeep.hpp"

#include "db/ledger/things.hpp"
#include "db/records/checks.hpp"
#include "db/records/columns.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/stored_codes.hpp"
#include "db/records/strings.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <map>

namespace harpkeep::db {

namespace {

std::optional<Date> last_visit_of(const Database& database, ThingNo harp)
{
    auto query = database.prepare("SELECT max(visited_on) FROM visit JOIN current_content USING (fact_no) "
                                  "WHERE harp_no = :harp_no");
    query.bind(":harp_no", harp.value).step();
    return read_optional_date(query);
}

struct CheckRow {
    FactNo fact;
    Moment taken;
};

/// Checks of a harp by time, oldest first; only what is needed to find the steps.
std::vector<CheckRow> checks_of_harp(const Database& database, ThingNo harp)
{
    auto query = database.prepare("SELECT fact_no, taken_utc_ms, taken_offset_min FROM harp_check "
                                  "JOIN current_content USING (fact_no) WHERE harp_no = :harp_no "
                                  "ORDER BY taken_utc_ms, id");
    query.bind(":harp_no", harp.value);
    std::vector<CheckRow> checks;
    while (query.step()) {
        CheckRow row;
        row.fact = {query.integer()};
        row.taken.utc_ms = query.integer();
        row.taken.offset_minutes = query.small_integer();
        checks.push_back(row);
    }
    return checks;
}

/// The greatest change of a step from one check to another.
std::optional<Cents> greatest_change(const Database& database, FactNo from, FactNo to)
{
    auto query =
        database.prepare("SELECT max(abs(b.error_microcents - a.error_microcents)) / 1e6 FROM step_row a "
                         "JOIN step_row b ON b.fact_no = :to AND b.place = a.place AND b.step = a.step "
                         "WHERE a.fact_no = :from AND a.step < :whole");
    query.bind(":from", from.value).bind(":to", to.value).bind(":whole", whole_step_code).step();
    const auto cents = query.optional_real();
    return cents ? std::optional{Cents{*cents}} : std::nullopt;
}

void add_checks(const Database& database, ThingNo harp, HarpUpkeep& upkeep)
{
    const auto checks = checks_of_harp(database, harp);
    if (checks.empty()) return;
    upkeep.last_check = local_date(checks.back().taken);
    const auto first_since = std::find_if(checks.begin(), checks.end(), [&](const CheckRow& check) {
        return !upkeep.last_visit || local_date(check.taken) >= first_day(*upkeep.last_visit);
    });
    if (first_since == checks.end() || first_since->fact == checks.back().fact) return;
    upkeep.drift_since_visit = greatest_change(database, first_since->fact, checks.back().fact);
}

/// Strings that are on, and places from which the last string came off without another.
void add_strings(const Ledger& ledger, HarpUpkeep& upkeep)
{
    std::map<int, bool> carries_string;
    for (StringLife& life : value_or_fail(string_lives(ledger, upkeep.harp.id))) {
        bool& carries = carries_string[life.string.place.diatonic_index()];
        if (life.removal) continue;
        carries = true;
        upkeep.strings_on.push_back(std::move(life));
    }
    for (const auto& [place, carries] : carries_string)
        if (!carries) upkeep.bare.push_back(place_from_code(place));
}

HarpUpkeep upkeep_of(const Ledger& ledger, HarpRecord harp)
{
    HarpUpkeep upkeep;
    upkeep.harp = std::move(harp);
    const ThingNo thing = current_thing(ledger.database(), upkeep.harp.id, "harp");
    upkeep.last_visit = last_visit_of(ledger.database(), thing);
    add_checks(ledger.database(), thing, upkeep);
    add_strings(ledger, upkeep);
    upkeep.open_loans = value_or_fail(loans_of(ledger, upkeep.harp.id));
    std::erase_if(upkeep.open_loans, [](const LoanRecord& loan) { return loan.back.has_value(); });
    return upkeep;
}

} // namespace

Result<std::vector<HarpUpkeep>> harp_upkeep(const Ledger& ledger, const std::optional<Uuid>& harp_id)
{
    return guarded("reading what the harps need", [&] {
        std::vector<HarpRecord> wanted;
        if (harp_id)
            wanted.push_back(value_or_fail(harp_with_id(ledger, *harp_id)));
        else
            wanted = value_or_fail(harps(ledger));
        std::vector<HarpUpkeep> all;
        for (HarpRecord& harp : wanted)
            if (!harp.details.left_on) all.push_back(upkeep_of(ledger, std::move(harp)));
        return all;
    });
}

} // namespace harpkeep::db
