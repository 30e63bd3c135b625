// SPDX-License-Identifier: MIT
#include "report/room_sheet.hpp"

#include "reason/string_cautions.hpp"
#include "reason/verdict_text.hpp"
#include "report/report_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

/// Whether something that happened on this day happened in this room.
bool happened_here(const RoomHarp& harp, Date day)
{
    return std::any_of(harp.stays.begin(), harp.stays.end(), [&](const Stay& stay) {
        return first_day(day) >= stay.from && first_day(day) <= stay.until;
    });
}

std::string stays_words(const RoomSheetInput& input, const RoomHarp& harp)
{
    std::string text;
    for (const Stay& stay : harp.stays) {
        std::string one = "all year";
        if (stay.from > input.from && stay.until < input.until)
            one = fmt::format("{} to {}", iso_date(stay.from), iso_date(stay.until));
        else if (stay.from > input.from)
            one = "from " + iso_date(stay.from);
        else if (stay.until < input.until)
            one = "until " + iso_date(stay.until);
        text += (text.empty() ? "" : ", ") + one;
    }
    return text;
}

/// What happened to one harp in the year.
struct HarpYear {
    int checks = 0;
    int visits = 0;
    int strings_put_on = 0;
    int strings_broken = 0;
    MoneySum visit_cost;
    MoneySum string_cost;
};

HarpYear year_of(const RoomHarp& harp)
{
    HarpYear year;
    for (const StoredCheck& check : harp.checks)
        year.checks += happened_here(harp, local_date(check.header.taken));
    for (const VisitRecord& record : harp.visits) {
        if (!happened_here(harp, record.visit.visited_on)) continue;
        ++year.visits;
        year.visit_cost.add(record.visit.cost);
    }
    for (const StringLife& life : harp.strings) {
        if (life.string.put_on && !life.string.watched_from && happened_here(harp, *life.string.put_on)) {
            ++year.strings_put_on;
            year.string_cost.add(life.string.cost);
        }
        year.strings_broken += life.removal && life.removal->details.reason == RemovalReason::broke &&
                               happened_here(harp, life.removal->details.removed_on);
    }
    return year;
}

void add_sums(MoneySum& sum, const MoneySum& more)
{
    for (const Money& money : more.totals()) sum.add(money);
}

std::string or_nothing(const MoneySum& sum)
{
    const auto words = sum.words();
    return words.empty() ? "nothing noted" : words;
}

MoneySum spares_bought(const RoomSheetInput& input)
{
    MoneySum sum;
    for (const SpareMovementRecord& record : input.spares) {
        const SpareMovement& movement = record.details;
        const Date day = first_day(movement.moved_on);
        if (movement.cause == SpareCause::bought && day >= input.from && day <= input.until)
            sum.add(movement.cost);
    }
    return sum;
}

Section year_section(const RoomSheetInput& input)
{
    MoneySum visits, strings, both;
    for (const RoomHarp& harp : input.harps) {
        const auto year = year_of(harp);
        add_sums(visits, year.visit_cost);
        add_sums(strings, year.string_cost);
    }
    add_sums(both, visits);
    add_sums(both, strings);
    Facts facts;
    const auto add = [&](const char* label, std::string words, std::vector<Field> fields) {
        facts.facts.push_back({label, std::move(words), std::move(fields)});
    };
    add("Year", fmt::format("{} to {}", iso_date(input.from), iso_date(input.until)),
        {{"room", input.room}, {"from", iso_date(input.from)}, {"until", iso_date(input.until)}});
    add("Harps", fmt::format("{}", input.harps.size()),
        {{"harps", static_cast<std::int64_t>(input.harps.size())}});
    const auto air = climate_overview(input.climate, input.from, input.until);
    if (!input.room.empty()) add("Air", climate_words(air), climate_fields(air));
    add("Cost of visits", or_nothing(visits), {{"visit_cost", visits.words()}});
    add("Cost of strings put on", or_nothing(strings), {{"string_cost", strings.words()}});
    add("Together", or_nothing(both), {{"cost", both.words()}});
    if (input.room.empty())
        add("Spares bought (not added: strings may come from them)", or_nothing(spares_bought(input)),
            {{"spares_bought", spares_bought(input).words()}});
    Section section{"year", "", {facts}};
    if (!input.remarks.empty()) section.blocks.push_back(Sentences{{input.remarks}});
    return section;
}

std::string_view verdict_short(const RoomHarp& harp)
{
    if (harp.checks.empty()) return "never checked";
    switch (judge_harp(harp.evidence).urgency) {
    case Urgency::call_now:
        return "call the technician now";
    case Urgency::next_visit:
        return "see to it at the next visit";
    case Urgency::not_needed:
        return "no technician needed";
    case Urgency::cannot_say:
        break;
    }
    return "cannot be said yet";
}

Section harps_section(const RoomSheetInput& input)
{
    Table table{.name = "harps",
                .columns = {{"Harp", Align::left, true},
                            {"Here", Align::left, true},
                            {"Checks", Align::right},
                            {"Visits", Align::right},
                            {"Strings\nput on", Align::right},
                            {"Strings\nbroken", Align::right},
                            {"Cost of\nvisits", Align::right},
                            {"Cost of\nstrings", Align::right},
                            {"Verdict of the last check", Align::left, true}},
                .when_empty = "No harp stood here.",
                .text_pt = 7.6};
    for (const RoomHarp& harp : input.harps) {
        const auto year = year_of(harp);
        const bool now = harp.checks.empty() ? false : judge_harp(harp.evidence).urgency == Urgency::call_now;
        table.rows.push_back(
            {.cells = {harp.harp.details.name, stays_words(input, harp), fmt::format("{}", year.checks),
                       fmt::format("{}", year.visits), fmt::format("{}", year.strings_put_on),
                       fmt::format("{}", year.strings_broken), year.visit_cost.words(),
                       year.string_cost.words(), std::string{verdict_short(harp)}},
             .fields = {{"harp", harp.harp.details.name},
                        {"here", stays_words(input, harp)},
                        {"checks", std::int64_t{year.checks}},
                        {"visits", std::int64_t{year.visits}},
                        {"strings_put_on", std::int64_t{year.strings_put_on}},
                        {"strings_broken", std::int64_t{year.strings_broken}},
                        {"visit_cost", year.visit_cost.words()},
                        {"string_cost", year.string_cost.words()},
                        {"verdict", std::string{verdict_short(harp)}}},
             .strong = now});
    }
    return {"harps", "Harps", {table}};
}

Section climate_section(const RoomSheetInput& input)
{
    Table table{.name = "climate",
                .columns = {{"Month"},
                            {"Samples", Align::right},
                            {"humidity\nlowest, %", Align::right},
                            {"middle, %", Align::right},
                            {"highest, %", Align::right},
                            {"outside\n40 to 50 %", Align::right},
                            {"temperature\nlowest, °C", Align::right},
                            {"highest, °C", Align::right}},
                .when_empty = "Nothing is logged of this room's air in this year.",
                .text_pt = 7.6};
    const auto number = [](const std::optional<Spread>& spread, double Spread::*member) {
        return spread ? fmt::format("{:.0f}", (*spread).*member) : std::string{"–"};
    };
    for (Date month{input.from.year, input.from.month, 1}; month <= input.until;
         month = plus_months(month, 1)) {
        const auto air = climate_overview(input.climate, std::max(month, input.from),
                                          std::min(last_day({month.year, month.month, 0}), input.until));
        if (air.samples == 0) continue;
        const auto name = iso_date({month.year, month.month, 0});
        Row row{.cells = {name, fmt::format("{}", air.samples), number(air.humidity_percent, &Spread::lowest),
                          number(air.humidity_percent, &Spread::middle),
                          number(air.humidity_percent, &Spread::highest),
                          air.humidity_percent ? fmt::format("{:.0f} %", 100.0 * air.humidity_outside_share)
                                               : "–",
                          number(air.temperature_celsius, &Spread::lowest),
                          number(air.temperature_celsius, &Spread::highest)},
                .fields = climate_fields(air)};
        row.fields.insert(row.fields.begin(), {"month", name});
        table.rows.push_back(std::move(row));
    }
    return {"climate", "Air by month", {table}};
}

/// A line of what was done or broke, to be sorted by day.
struct Happening {
    Date day;
    Row row;
};

Section happened_section(const RoomSheetInput& input)
{
    std::vector<Happening> happenings;
    const auto add = [&](Date day, const std::string& harp, const std::string& words,
                         const std::optional<Money>& cost) {
        Row row{.cells = {iso_date(day), harp, words, money_words(cost)},
                .fields = {{"date", iso_date(day)}, {"harp", harp}, {"what", words}}};
        const auto fields = money_fields("cost", cost);
        row.fields.insert(row.fields.end(), fields.begin(), fields.end());
        happenings.push_back({first_day(day), std::move(row)});
    };
    for (const RoomHarp& harp : input.harps) {
        const auto& name = harp.harp.details.name;
        for (const VisitRecord& record : harp.visits)
            if (happened_here(harp, record.visit.visited_on))
                add(record.visit.visited_on, name, "visit: " + work_words(record.visit), record.visit.cost);
        for (const StringLife& life : harp.strings)
            if (life.removal && life.removal->details.reason == RemovalReason::broke &&
                happened_here(harp, life.removal->details.removed_on))
                add(life.removal->details.removed_on, name,
                    fmt::format(
                        "{} broke{}", harp_name(life.string.place),
                        life.removal->details.broke_at
                            ? fmt::format(" at the {}", break_point_name(*life.removal->details.broke_at))
                            : std::string{}),
                    std::nullopt);
        for (const LoanRecord& loan : harp.loans)
            if (happened_here(harp, loan.loan.from))
                add(loan.loan.from, name, "lent to " + loan.loan.borrower, std::nullopt);
    }
    std::stable_sort(happenings.begin(), happenings.end(),
                     [](const Happening& a, const Happening& b) { return a.day < b.day; });
    Table table{.name = "happened",
                .columns = {{"Date"}, {"Harp"}, {"What", Align::left, true}, {"Cost", Align::right}},
                .when_empty = "No visit, break or loan is noted in this year.",
                .text_pt = 7.6};
    for (Happening& one : happenings) table.rows.push_back(std::move(one.row));
    return {"happened", "Visits, breaks and loans", {table}};
}

Section due_section(const RoomSheetInput& input)
{
    Table table{.name = "due",
                .columns = {{"Due"}, {"Harp"}, {"What", Align::left, true}, {"Why", Align::left, true}},
                .when_empty = "Nothing is due.",
                .text_pt = 7.6};
    std::vector<DueItem> items;
    for (const RoomHarp& harp : input.harps) items.insert(items.end(), harp.due.begin(), harp.due.end());
    std::stable_sort(items.begin(), items.end(),
                     [](const DueItem& a, const DueItem& b) { return a.due_on < b.due_on; });
    for (const DueItem& item : items)
        table.rows.push_back({.cells = {(item.due_on < input.today ? "since " : "") + iso_date(item.due_on),
                                        item.harp, item.what, item.why},
                              .fields = {{"due_on", iso_date(item.due_on)},
                                         {"harp", item.harp},
                                         {"what", item.what},
                                         {"why", item.why}}});
    return {"due", "Due", {table}};
}

} // namespace

Document room_sheet(const RoomSheetInput& input)
{
    Document document{.kind = "room",
                      .title = input.room.empty() ? "School year" : "Room sheet",
                      .subject = input.room.empty() ? "All harps" : input.room,
                      .subtitle = fmt::format("{} to {}", iso_date(input.from), iso_date(input.until)),
                      .day = input.today,
                      .main_table = "harps"};
    document.sections = {year_section(input), harps_section(input)};
    if (!input.room.empty()) document.sections.push_back(climate_section(input));
    document.sections.push_back(happened_section(input));
    document.sections.push_back(due_section(input));
    document.sections.push_back({"cautions", "", {Caution{{std::string{cautions::moving}}}}});
    return document;
}

} // namespace harpkeep::report
