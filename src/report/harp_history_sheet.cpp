// SPDX-License-Identifier: MIT
#include "report/harp_history_sheet.hpp"

#include "reason/string_cautions.hpp"
#include "reason/verdict_text.hpp"
#include "report/report_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <string_view>

namespace harpkeep::report {

namespace {

std::string or_not_noted(const std::string& words)
{
    return words.empty() ? "not noted" : words;
}

MoneySum cost_of_visits(const HarpHistoryInput& input)
{
    MoneySum sum;
    for (const VisitRecord& record : input.visits) sum.add(record.visit.cost);
    return sum;
}

MoneySum cost_of_strings(const HarpHistoryInput& input)
{
    MoneySum sum;
    for (const StringLife& life : input.strings) sum.add(life.string.cost);
    return sum;
}

Section harp_section(const HarpHistoryInput& input)
{
    const HarpDetails& harp = input.harp.details;
    Facts facts;
    const auto add = [&](const char* label, std::string words, std::vector<Field> fields) {
        facts.facts.push_back({label, std::move(words), std::move(fields)});
    };
    add("Maker", or_not_noted(harp.maker), {{"harp", harp.name}, {"maker", harp.maker}});
    add("Serial number", or_not_noted(harp.serial_number), {{"serial_number", harp.serial_number}});
    add("Built", harp.year_built ? fmt::format("{}", *harp.year_built) : "not noted",
        {{"year_built", harp.year_built ? FieldValue{std::int64_t{*harp.year_built}} : FieldValue{}}});
    add("Nickname", harp.nickname.empty() ? "none" : harp.nickname, {{"nickname", harp.nickname}});
    add("Value as noted", harp.value ? money_text(*harp.value) : "not noted",
        money_fields("value", harp.value));
    add("Stands in", or_not_noted(input.room), {{"room", input.room}});
    add("Photo", or_not_noted(harp.photo_path), {{"photo_path", harp.photo_path}});
    add("Remarks", harp.remarks.empty() ? "none" : harp.remarks, {{"remarks", harp.remarks}});
    add("Left", harp.left_on ? iso_date(*harp.left_on) : "no",
        {{"left_on", harp.left_on ? FieldValue{iso_date(*harp.left_on)} : FieldValue{}}});
    return {"harp", "", {facts}};
}

Section state_section(const HarpHistoryInput& input)
{
    Section section{"verdict", "State at the last check", {}};
    if (input.checks.empty()) {
        section.blocks.push_back(Sentences{{"The harp was never checked."}});
        return section;
    }
    const auto kind = input.harp.details.layout.kind;
    auto sentences = verdict_sentences(judge_harp(input.evidence), kind);
    section.blocks.push_back(Sentences{{sentences.front()}, TextLook::lead});
    sentences.erase(sentences.begin());
    section.blocks.push_back(Sentences{sentences, TextLook::body, true});
    section.blocks.push_back(Sentences{{tolerance_sentence(input.tolerances)}, TextLook::small});
    return section;
}

Section visits_section(const HarpHistoryInput& input)
{
    Table table{.name = "visits",
                .columns = {{"Date"}, {"By"}, {"Work", Align::left, true}, {"Cost", Align::right}},
                .when_empty = "No visit is noted."};
    for (const VisitRecord& record : input.visits) {
        const Visit& visit = record.visit;
        Row row{.cells = {iso_date(visit.visited_on), visit.technician, work_words(visit),
                          money_words(visit.cost)},
                .fields = {{"date", iso_date(visit.visited_on)},
                           {"technician", visit.technician},
                           {"work", work_words(visit)}}};
        const auto cost = money_fields("cost", visit.cost);
        row.fields.insert(row.fields.end(), cost.begin(), cost.end());
        table.rows.push_back(std::move(row));
    }
    Section section{"visits", "Technician's visits", {table}};
    const auto visits = cost_of_visits(input).words();
    const auto strings = cost_of_strings(input).words();
    if (!visits.empty() || !strings.empty())
        section.blocks.push_back(Sentences{
            {fmt::format("Together as far as costs are noted: visits {}, strings {}.",
                         visits.empty() ? "nothing" : visits, strings.empty() ? "nothing" : strings)}});
    return section;
}

double typical_error_cents(const StoredCheck& check)
{
    double sum = 0.0;
    for (const StepError& step : check.result.steps) sum += step.error_cents * step.error_cents;
    return check.result.steps.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(check.result.steps.size()));
}

Section checks_section(const HarpHistoryInput& input)
{
    Table table{.name = "checks",
                .columns = {{"Date"},
                            {"Steps", Align::right},
                            {"within", Align::right},
                            {"not proven", Align::right},
                            {"out", Align::right},
                            {"typical error, cents", Align::right}},
                .when_empty = "No check is stored."};
    for (const StoredCheck& check : input.checks) {
        int within = 0, not_proven = 0, out = 0;
        for (const StepVerdict& step : judge_steps(check.result.steps, {}, input.tolerances)) {
            within += step.conformity == Conformity::within;
            not_proven += step.conformity == Conformity::not_proven;
            out += step.conformity == Conformity::out;
        }
        const auto steps = static_cast<std::int64_t>(check.result.steps.size());
        table.rows.push_back(
            {.cells = {short_time(check.header.taken), fmt::format("{}", steps), fmt::format("{}", within),
                       fmt::format("{}", not_proven), fmt::format("{}", out),
                       fmt::format("{:.1f}", typical_error_cents(check))},
             .fields = {{"taken", iso_time(check.header.taken)},
                        {"steps", steps},
                        {"within", std::int64_t{within}},
                        {"not_proven", std::int64_t{not_proven}},
                        {"out", std::int64_t{out}},
                        {"typical_error_cents", typical_error_cents(check)}}});
    }
    return {"checks", "Checks", {table}};
}

Section strings_section(const HarpHistoryInput& input)
{
    int put_on = 0, broke = 0, on_now = 0;
    for (const StringLife& life : input.strings) {
        put_on += !life.string.watched_from.has_value();
        on_now += !life.removal.has_value();
        broke += life.removal && life.removal->details.reason == RemovalReason::broke;
    }
    Facts facts;
    facts.facts = {
        {"Strings on now, as noted", fmt::format("{}", on_now), {{"strings_on", std::int64_t{on_now}}}},
        {"Put on since the ledger began",
         fmt::format("{}", put_on),
         {{"strings_put_on", std::int64_t{put_on}}}},
        {"Broken", fmt::format("{}", broke), {{"strings_broken", std::int64_t{broke}}}}};
    return {"string_counts", "Strings", {facts}};
}

Section loans_section(const HarpHistoryInput& input)
{
    Table table{.name = "loans",
                .columns = {{"From"},
                            {"Due back"},
                            {"To", Align::left, true},
                            {"Condition at hand-over", Align::left, true},
                            {"Back"},
                            {"Condition then", Align::left, true}},
                .when_empty = "The harp was not on loan.",
                .text_pt = 7.6};
    for (const LoanRecord& record : input.loans) {
        const Loan& loan = record.loan;
        const std::string until = loan.until ? iso_date(*loan.until) : "";
        const std::string back = record.back ? iso_date(record.back->details.returned_on) : "";
        const std::string condition_back = record.back ? record.back->details.condition_back : "";
        table.rows.push_back(
            {.cells = {iso_date(loan.from), until, loan.borrower, loan.condition_out, back, condition_back},
             .fields = {{"from", iso_date(loan.from)},
                        {"until", loan.until ? FieldValue{until} : FieldValue{}},
                        {"borrower", loan.borrower},
                        {"condition_out", loan.condition_out},
                        {"returned_on", record.back ? FieldValue{back} : FieldValue{}},
                        {"condition_back", condition_back}}});
    }
    return {"loans", "Loans", {table}};
}

/// "steel string put on" of "7C: steel string put on": what strings of one day can have in common.
std::string_view without_place(const HistoryEvent& event)
{
    if (!event.place) return {};
    const auto begin = harp_name(*event.place) + ": ";
    return event.words.starts_with(begin) ? std::string_view{event.words}.substr(begin.size())
                                          : std::string_view{};
}

/// How many events from the first on are of one day and say the same of different strings.
std::size_t alike(std::span<const HistoryEvent> events)
{
    const auto words = without_place(events.front());
    std::size_t count = 1;
    while (!words.empty() && count < events.size() && events[count].on == events.front().on &&
           without_place(events[count]) == words)
        ++count;
    return count;
}

Section events_section(const HarpHistoryInput& input)
{
    constexpr std::size_t fewest_together = 3;
    Table table{.name = "events",
                .columns = {{"Date"}, {"What happened", Align::left, true}},
                .when_empty = "Nothing is noted yet.",
                .text_pt = 7.6};
    const std::span events{input.events};
    for (std::size_t i = 0; i < events.size();) {
        const std::size_t count = alike(events.subspan(i));
        std::vector<StringPlace> places;
        for (std::size_t k = i; k < i + count; ++k) {
            const HistoryEvent& event = events[k];
            Row row{.fields = {{"date", iso_date(event.on)}, {"kind", event.kind}, {"words", event.words}}};
            if (count < fewest_together) row.cells = {iso_date(event.on), event.words};
            if (event.place) places.push_back(*event.place);
            table.rows.push_back(std::move(row));
        }
        if (count >= fewest_together)
            table.rows[table.rows.size() - count].cells = {
                iso_date(events[i].on),
                fmt::format("{}: {} each", places_words(places, input.harp.details.layout),
                            without_place(events[i]))};
        i += count;
    }
    return {"events", "All that happened", {table}};
}

Section handover_section()
{
    return {"handover",
            "Hand-over",
            {WritingSpace{"Condition, and what goes with the harp", 3},
             SignatureLines{{"Date and place", "Handed over by", "Received by"}},
             Caution{{std::string{cautions::moving}, std::string{cautions::many_strings}}}}};
}

} // namespace

Document harp_history_sheet(const HarpHistoryInput& input)
{
    Document document{.kind = "history",
                      .title = "History of a harp",
                      .subject = input.harp.details.name,
                      .subtitle = harp_subtitle(input.harp.details),
                      .day = input.today,
                      .main_table = "events"};
    document.sections = {harp_section(input),   state_section(input),   visits_section(input),
                         checks_section(input), strings_section(input), loans_section(input),
                         events_section(input), handover_section()};
    return document;
}

} // namespace harpkeep::report
