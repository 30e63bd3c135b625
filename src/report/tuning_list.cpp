// SPDX-License-Identifier: MIT
#include "report/tuning_list.hpp"

#include "reason/string_cautions.hpp"
#include "reason/tune_text.hpp"
#include "report/report_words.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep::report {

namespace {

std::string_view sign_of(int alteration)
{
    return alteration < 0 ? "♭" : alteration > 0 ? "♯" : "♮";
}

/// "D♭ C♯ B♭ | E♮ F♭ G♮ A♯": the pedals from left to right.
std::string pedals_words(const PedalSetting& setting)
{
    std::string text;
    for (const Letter letter : pedal_order) {
        if (!text.empty()) text += letter == Letter::E ? " | " : " ";
        text += fmt::format("{}{}", letter_name(letter), sign_of(setting.alteration(letter)));
    }
    return text;
}

Section settings_section(const TuningListInput& input)
{
    Table table{.name = "settings",
                .columns = {{"No.", Align::right},
                            {"Pedals, left foot | right foot"},
                            {"Counts", Align::right},
                            {"Remarks", Align::left, true}}};
    std::int64_t number = 0;
    for (const UsedSetting& used : input.settings) {
        ++number;
        table.rows.push_back({.cells = {fmt::format("{}", number), pedals_words(used.setting),
                                        fmt::format("{:g}", used.weight), ""},
                              .fields = {{"number", number},
                                         {"diagram", pedal_diagram(used.setting)},
                                         {"pedals", pedal_names(used.setting)},
                                         {"weight", used.weight}}});
    }
    return {"settings", "Pedal settings of the pieces", {table}};
}

std::optional<double> greatest_left(const TunedString& string)
{
    std::optional<double> greatest;
    for (const UsedPosition& used : string.used)
        if (used.after_cents) greatest = std::max(greatest.value_or(0.0), std::abs(*used.after_cents));
    return greatest;
}

std::string remark_of(const TunedString& string)
{
    if (string.by_hand) return "no discs: by hand to the note of the piece";
    int unknown = 0;
    for (const UsedPosition& used : string.used) unknown += !used.after_cents.has_value();
    if (unknown > 0) return "not all its notes were measured";
    return "";
}

Row string_row(const TunedString& string, bool around)
{
    const auto left = greatest_left(string);
    Row row{.cells = {"☐", harp_name(string.place),
                      fmt::format("{}{}", letter_name(string.place.letter), sign_of(string.alteration)),
                      format_hertz(Hertz{string.target_hz}), format_signed(string.offset_cents, 1)},
            .fields = {place_field(string.place),
                       {"alteration", std::int64_t{string.alteration}},
                       {"target_hz", string.target_hz},
                       {"offset_cents", string.offset_cents}},
            .strong = string.place.letter == Letter::C || string.place.letter == Letter::F};
    if (around) {
        row.cells.push_back(format_signed(string.moved_cents, 1));
        row.cells.push_back(left ? fmt::format("{:.1f}", *left) : "–");
        row.fields.push_back({"moved_cents", string.moved_cents});
        row.fields.push_back({"greatest_left_cents", field_value(left)});
    }
    row.cells.push_back(remark_of(string));
    row.fields.push_back({"by_hand", string.by_hand});
    return row;
}

Section strings_section(const TuningListInput& input)
{
    const bool around = input.around.has_value();
    Table table{.name = "strings",
                .columns = {{"Done"},
                            {"String"},
                            {"Sounds"},
                            {"Frequency", Align::right},
                            {"cents from equal\ntemperament", Align::right}},
                .text_pt = 7.2,
                .tight = true};
    if (around) {
        table.columns.push_back({"moved by\ncents", Align::right});
        table.columns.push_back({"then off by\nat most, cents", Align::right});
    }
    table.columns.push_back({"Remarks", Align::left, true});
    const auto strings =
        around ? input.around->strings : tuned_to(input.harp.details.layout, input.temperament, input.a4_hz);
    for (auto string = strings.rbegin(); string != strings.rend(); ++string)
        table.rows.push_back(string_row(*string, around));
    return {"strings", input.settings.empty() ? "" : "Open strings", {table}};
}

Section head_section(const TuningListInput& input)
{
    Facts facts;
    facts.facts.push_back({"For",
                           input.occasion.empty() ? "any day" : input.occasion,
                           {{"harp", input.harp.details.name}, {"occasion", input.occasion}}});
    facts.facts.push_back({"A4", format_hertz(Hertz{input.a4_hz}, 1), {{"a4_hz", input.a4_hz}}});
    facts.facts.push_back({"Temperament",
                           std::string{input.temperament.title},
                           {{"temperament", std::string{input.temperament.name}}}});
    Section section{"tuning", "", {facts}};
    if (!input.around) return section;
    std::vector<std::string> sentences;
    if (input.check_taken)
        sentences.push_back(
            fmt::format("Tuned around the steps as the check of {} found them, so that the notes of "
                        "these settings err least.",
                        short_time(*input.check_taken)));
    for (const auto& sentence : tune_around_sentences(*input.around)) sentences.push_back(sentence);
    section.blocks.push_back(Sentences{sentences});
    return section;
}

} // namespace

std::vector<TunedString> tuned_to(const HarpLayout& layout, const Temperament& temperament, double a4_hz)
{
    std::vector<TunedString> strings;
    for (const HarpString& string : layout.strings) {
        // MIDI: C4 is 60.
        const int key = 12 * (string.place.scientific_octave + 1) + semitones_above_c(string.place.letter) +
                        string.open_alteration;
        const Hertz target = tempered_pitch(key, Hertz{a4_hz}, temperament);
        const double equal_hz = a4_hz * std::exp2((key - 69) / 12.0);
        strings.push_back({.place = string.place,
                           .position = positions_of(layout.kind, string).front(),
                           .alteration = string.open_alteration,
                           .target_hz = target.value(),
                           .offset_cents = 1200.0 * std::log2(target.value() / equal_hz)});
    }
    return strings;
}

Document tuning_list(const TuningListInput& input)
{
    const HarpDetails& harp = input.harp.details;
    Document document{.kind = "tuning",
                      .title = "Tuning list",
                      .subject = harp.name,
                      .subtitle = harp_subtitle(harp),
                      .day = input.today,
                      .main_table = "strings",
                      .most_pages = 1};
    auto& sections = document.sections;
    sections.push_back(head_section(input));
    if (!input.settings.empty()) sections.push_back(settings_section(input));
    sections.push_back(strings_section(input));
    sections.push_back({"cautions", "", {Caution{{std::string{cautions::many_strings}}}}});
    return document;
}

} // namespace harpkeep::report
