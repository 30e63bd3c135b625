// SPDX-License-Identifier: MIT
#include "report/technician_sheet.hpp"

#include "reason/string_cautions.hpp"
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "records/wanted_note.hpp"
#include "report/report_words.hpp"
#include "report/step_panels.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

constexpr std::size_t visits_shown = 3;
// So much fits on two pages; the ledger, JSON and CSV have all of it.
constexpr std::size_t notes_shown = 4; ///< the youngest
constexpr std::size_t parts_shown = 4;
constexpr std::size_t conditions_told = 2;
constexpr std::size_t longest_note_bytes = 200;
constexpr int note_months = 24; ///< older ones have been seen by somebody (own choice)

std::string ago(Date day, Date today)
{
    const int days = days_since_epoch(today) - days_since_epoch(first_day(day));
    return days == 0 ? "today" : span_text(days) + " ago";
}

Fact check_fact(const TechnicianSheetInput& input)
{
    if (!input.check) return {"Checked", "never", {{"check_taken", {}}}};
    const auto& header = input.check->header;
    std::string words =
        fmt::format("{}, A4 = {:.1f} Hz", short_time(header.taken), input.check->result.a4_hz);
    if (header.temperature) words += fmt::format(", {:.0f} °C", header.temperature->value());
    if (header.humidity) words += fmt::format(", {:.0f} %", header.humidity->value());
    return {
        "Checked",
        words,
        {{"check_taken", iso_time(header.taken)},
         {"a4_hz", input.check->result.a4_hz},
         {"check_temperature_celsius",
          header.temperature ? FieldValue{header.temperature->value()} : FieldValue{}},
         {"check_humidity_percent", header.humidity ? FieldValue{header.humidity->value()} : FieldValue{}}}};
}

Section harp_section(const TechnicianSheetInput& input)
{
    const HarpDetails& harp = input.harp.details;
    const auto* visit = last_visit(input.visits, input.today);
    Facts facts;
    facts.facts.push_back(
        {"Last visit",
         visit ? fmt::format("{}, {}", iso_date(visit->visit.visited_on),
                             ago(visit->visit.visited_on, input.today))
               : "none noted",
         {{"harp", harp.name},
          {"last_visit", visit ? FieldValue{iso_date(visit->visit.visited_on)} : FieldValue{}}}});
    facts.facts.push_back(check_fact(input));
    facts.facts.push_back({"Stands in",
                           input.room.empty() ? "not noted" : input.room,
                           {{"room", input.room.empty() ? FieldValue{} : FieldValue{input.room}}}});
    std::string maker = harp.maker.empty() ? "not noted" : harp.maker;
    if (!harp.nickname.empty()) maker += fmt::format(" (called {})", harp.nickname);
    facts.facts.push_back({"Maker", maker, {{"maker", harp.maker}, {"serial_number", harp.serial_number}}});
    facts.facts.push_back({fmt::format("Air from {} on", iso_date(input.climate.from)),
                           climate_words(input.climate), climate_fields(input.climate)});
    facts.facts.push_back(
        {"Remarks", harp.remarks.empty() ? "none" : harp.remarks, {{"remarks", harp.remarks}}});
    return {"harp", "", {facts}};
}

Section verdict_section(const TechnicianSheetInput& input)
{
    const auto kind = input.harp.details.layout.kind;
    const auto verdict = judge_harp(input.evidence);
    auto sentences = verdict_sentences(verdict, kind);
    Section section{"verdict", "Verdict on the whole harp", {}};
    section.blocks.push_back(Sentences{{sentences.front()}, TextLook::lead});
    sentences.erase(sentences.begin());
    section.blocks.push_back(Sentences{sentences, TextLook::body, true});
    return section;
}

Section visits_section(const TechnicianSheetInput& input)
{
    Table table{.name = "visits",
                .columns = {{"Date"}, {"By"}, {"Work", Align::left, true}},
                .when_empty = "No visit is noted."};
    for (auto visit = input.visits.rbegin(); visit != input.visits.rend(); ++visit) {
        const Visit& one = visit->visit;
        Row row{.fields = {{"date", iso_date(one.visited_on)},
                           {"technician", one.technician},
                           {"work", work_words(one)}}};
        if (table.rows.size() < visits_shown)
            row.cells = {iso_date(one.visited_on), one.technician.empty() ? "not noted" : one.technician,
                         work_words(one)};
        table.rows.push_back(std::move(row));
    }
    return {"visits", "Last visits", {table}};
}

/// Places of the strings on now that were put on from a day on.
std::vector<StringPlace> put_on_since(const TechnicianSheetInput& input, Date day)
{
    std::vector<StringPlace> places;
    for (const StringLife& life : input.strings)
        if (!life.removal && life.string.put_on && first_day(*life.string.put_on) >= first_day(day))
            places.push_back(life.string.place);
    return places;
}

std::vector<StringPlace> age_unknown(const TechnicianSheetInput& input)
{
    std::vector<StringPlace> places;
    for (const HarpString& string : input.harp.details.layout.strings) {
        const bool known =
            std::any_of(input.strings.begin(), input.strings.end(), [&](const StringLife& life) {
                return !life.removal && life.string.place == string.place && life.string.put_on;
            });
        if (!known) places.push_back(string.place);
    }
    return places;
}

std::vector<std::string> age_sentences(const TechnicianSheetInput& input)
{
    const auto& layout = input.harp.details.layout;
    std::vector<std::string> sentences;
    const auto* visit = last_visit(input.visits, input.today);
    const Date since = visit ? visit->visit.visited_on : plus_months(input.today, -12);
    const auto recent = put_on_since(input, since);
    sentences.push_back(fmt::format("New since {} ({}): {}.", visit ? "the last visit" : "a year",
                                    iso_date(since), recent.empty() ? "none" : places_words(recent, layout)));
    for (const DueItem& item : input.due) {
        if (item.kind == DueKind::treble_strings)
            sentences.push_back(fmt::format("Old in octaves 0 to 2: {}.", places_words(item.places, layout)));
        if (item.kind == DueKind::wires)
            sentences.push_back(fmt::format("Old wires: {}.", places_words(item.places, layout)));
    }
    const auto unknown = age_unknown(input);
    if (!unknown.empty())
        sentences.push_back(fmt::format("Age not known: {}.", places_words(unknown, layout)));
    return sentences;
}

/// The first conditions of these kinds in sentences, the places of the others in one more.
std::vector<std::string> condition_sentences(const TechnicianSheetInput& input,
                                             std::initializer_list<ConditionKind> kinds)
{
    std::vector<std::string> sentences;
    std::vector<StringPlace> others;
    for (const StringCondition& condition : input.evidence.conditions) {
        if (std::find(kinds.begin(), kinds.end(), condition.kind) == kinds.end()) continue;
        if (sentences.size() < conditions_told)
            sentences.push_back(condition_sentence(condition, input.harp.details.layout.kind));
        else
            others.push_back(condition.place);
    }
    if (!others.empty())
        sentences.push_back(
            fmt::format("The same is true of {}.", places_words(others, input.harp.details.layout)));
    return sentences;
}

Section strings_section(const TechnicianSheetInput& input)
{
    std::vector<std::string> sentences;
    for (const DueItem& item : input.due)
        if (item.kind == DueKind::bare_place)
            sentences.push_back(
                fmt::format("No string on {}.", places_words(item.places, input.harp.details.layout)));
    const auto conditions =
        condition_sentences(input, {ConditionKind::false_string, ConditionKind::settling});
    sentences.insert(sentences.end(), conditions.begin(), conditions.end());
    const auto ages = age_sentences(input);
    sentences.insert(sentences.end(), ages.begin(), ages.end());
    return {"string_ages", "1  Strings", {Sentences{sentences, TextLook::body, true}}};
}

Section grip_section(const TechnicianSheetInput& input)
{
    const auto kind = input.harp.details.layout.kind;
    auto sentences = condition_sentences(input, {ConditionKind::poor_ring, ConditionKind::no_return});
    if (sentences.empty())
        sentences.emplace_back(
            input.check
                ? "The check found no string that rings short in one position only, and none that does "
                  "not come back to its open pitch."
                : "Not checked.");
    return {"grip",
            kind == HarpKind::lever ? "2  Grip and return" : "3  Grip and return",
            {Sentences{sentences, TextLook::body, true}}};
}

/// A long note up to its last whole word.
std::string shortened(const std::string& words)
{
    if (words.size() <= longest_note_bytes) return words;
    auto end = words.rfind(' ', longest_note_bytes);
    if (end == std::string::npos) {
        end = longest_note_bytes;
        while (end > 0 && (static_cast<unsigned char>(words[end]) & 0xC0U) == 0x80U)
            --end; // not inside a character
    }
    return words.substr(0, end) + " ... (goes on in the ledger)";
}

Section notes_section(const TechnicianSheetInput& input)
{
    const Date oldest = plus_months(input.today, -note_months);
    Table table{.name = "notes"};
    std::vector<std::string> sentences;
    for (auto note = input.notes.rbegin(); note != input.notes.rend(); ++note) {
        const Note& one = note->details;
        if (wanted_part(one)) continue; // stands with the parts
        const auto place = one.place ? harp_name(*one.place) : std::string{};
        table.rows.push_back({.fields = {{"date", iso_date(one.noted_on)},
                                         {"place", one.place ? FieldValue{place} : FieldValue{}},
                                         {"words", one.words}}});
        if (sentences.size() < notes_shown && last_day(one.noted_on) >= oldest)
            sentences.push_back(fmt::format("{}{}{}: {}", iso_date(one.noted_on), place.empty() ? "" : ", ",
                                            place, shortened(one.words)));
    }
    if (sentences.empty()) sentences.emplace_back("Nothing noted.");
    return {"noticed", "What the owner noticed", {Sentences{sentences, TextLook::body, true}, table}};
}

int in_stock(const TechnicianSheetInput& input, StringPlace place)
{
    int count = 0;
    for (const SpareStock& stock : input.stock)
        if (stock.place == place && (!stock.harp_id || *stock.harp_id == input.harp.id)) count += stock.count;
    return count;
}

void add_wanted(Table& table, const TechnicianSheetInput& input, std::vector<StringPlace> places,
                const std::string& why)
{
    if (places.empty()) return;
    std::vector<StringPlace> missing;
    for (const StringPlace place : places)
        if (in_stock(input, place) == 0) missing.push_back(place);
    const auto& layout = input.harp.details.layout;
    const std::string spares = missing.empty()                   ? "all there"
                               : missing.size() == places.size() ? "none there"
                                                                 : "without " + places_words(missing, layout);
    table.rows.push_back({.cells = {places_words(places, layout), why, spares},
                          .fields = {{"places", places_field(places)},
                                     {"why", why},
                                     {"places_without_spare", places_field(missing)}}});
}

/// Felts, discs and what else the owner asked for, youngest first.
Table parts_table(const TechnicianSheetInput& input)
{
    Table table{.name = "parts", .columns = {{"Other parts", Align::left, true}, {"For"}, {"Noted"}}};
    for (auto note = input.notes.rbegin(); note != input.notes.rend(); ++note) {
        const auto part = wanted_part(note->details);
        if (!part) continue;
        const auto& place = note->details.place;
        const std::string on = iso_date(note->details.noted_on);
        Row row{.fields = {{"part", *part},
                           {"place", place ? FieldValue{harp_name(*place)} : FieldValue{}},
                           {"noted_on", on}}};
        if (table.rows.size() < parts_shown)
            row.cells = {shortened(*part), place ? harp_name(*place) : "", on};
        table.rows.push_back(std::move(row));
    }
    return table;
}

Section wanted_section(const TechnicianSheetInput& input)
{
    Table table{.name = "wanted",
                .columns = {{"Strings and wires", Align::left, true}, {"Why"}, {"Spares", Align::left, true}},
                .when_empty = "No string or wire is known to be wanted."};
    std::vector<StringPlace> bare, false_ones, treble, wires;
    for (const DueItem& item : input.due) {
        auto* list = item.kind == DueKind::bare_place       ? &bare
                     : item.kind == DueKind::treble_strings ? &treble
                     : item.kind == DueKind::wires          ? &wires
                                                            : nullptr;
        if (list != nullptr) list->insert(list->end(), item.places.begin(), item.places.end());
    }
    for (const StringCondition& condition : input.evidence.conditions)
        if (condition.kind == ConditionKind::false_string) false_ones.push_back(condition.place);
    add_wanted(table, input, bare, "missing");
    add_wanted(table, input, false_ones, "false");
    add_wanted(table, input, treble, "old, octaves 0 to 2");
    add_wanted(table, input, wires, "old wires");
    Section section{"wanted", "Parts and wires wanted", {table}};
    if (auto parts = parts_table(input); !parts.rows.empty()) section.blocks.push_back(std::move(parts));
    section.blocks.push_back(WritingSpace{"Felts, discs and other parts", 2, 1});
    return section;
}

Section meaning_section(const TechnicianSheetInput& input)
{
    std::vector<std::string> sentences{"Cents are errors of a step against 100 cents, with half of the 95 % "
                                       "interval after ±. Millimetres are the "
                                       "same error as length of the sounding string, by geometry alone: grip "
                                       "comes on top, so real distances are "
                                       "smaller. They are no instruction. The mean of a pedal's strings has "
                                       "the interval that their scatter leaves.",
                                       tolerance_sentence(input.tolerances)};
    return {"meaning",
            "",
            {Sentences{sentences, TextLook::small},
             Caution{{std::string{mechanism_caution}, std::string{cautions::many_strings},
                      std::string{cautions::removal}, std::string{cautions::moving}}}}};
}

} // namespace

Document technician_sheet(const TechnicianSheetInput& input)
{
    const HarpDetails& harp = input.harp.details;
    Document document{.kind = "technician",
                      .title = "For the technician",
                      .subject = harp.name,
                      .subtitle = harp_subtitle(harp),
                      .day = input.today,
                      .main_table = "strings",
                      .most_pages = 2};
    auto& sections = document.sections;
    sections.push_back(harp_section(input));
    sections.push_back(verdict_section(input));
    if (input.check && !input.evidence.steps.empty()) {
        auto chart = steps_along_neck(harp.layout, input.evidence.steps, input.tolerances);
        sections.push_back({"neck", "Steps along the neck, lowest string on the left", {std::move(chart)}});
    }
    sections.push_back(strings_section(input));
    if (harp.layout.kind != HarpKind::lever) sections.push_back(pedal_section(input));
    sections.push_back(grip_section(input));
    sections.push_back(intonation_section(input));
    sections.push_back(notes_section(input));
    sections.push_back(visits_section(input));
    sections.push_back(wanted_section(input));
    sections.push_back({"technician_notes", "The technician's own notes", {WritingSpace{"", 10, 3}}});
    sections.push_back(meaning_section(input));
    return document;
}

} // namespace harpkeep::report
