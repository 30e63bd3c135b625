// SPDX-License-Identifier: MIT
#include "harp/beats.hpp"
#include "harp/temperament.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <array>

namespace harpkeep::cli {

namespace {

struct TemperamentWords {
    std::string name;
    double a4_hz = 440.0;
};

constexpr std::array<std::string_view, 12> pitch_class_names{
    "C", "C sharp", "D", "E flat", "E", "F", "F sharp", "G", "A flat", "A", "B flat", "B"};

constexpr int key_of_c4 = 60; // MIDI

Json json_of(const Temperament& temperament, double a4_hz)
{
    const auto above_c = cents_above_c(temperament);
    const auto deviations = deviations_cents(temperament);
    Json classes = Json::array();
    for (int i = 0; i < 12; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const auto pitch = tempered_pitch(key_of_c4 + i, Hertz{a4_hz}, temperament);
        const auto third = tempered_pitch(key_of_c4 + i + 4, Hertz{a4_hz}, temperament);
        const auto fifth = tempered_pitch(key_of_c4 + i + 7, Hertz{a4_hz}, temperament);
        classes.push_back({{"name", pitch_class_names[index]},
                           {"cents_above_c", above_c[index]},
                           {"deviation_cents", deviations[index]},
                           {"frequency_hz", pitch.value()},
                           {"major_third_cents", major_third(temperament, i).value()},
                           {"major_third_beats_per_second", beat_rate(pitch, third, {5, 4}).value()},
                           {"fifth_beats_per_second", beat_rate(pitch, fifth, {3, 2}).value()}});
    }
    return {{"name", temperament.name},
            {"title", temperament.title},
            {"a4_hz", a4_hz},
            {"fifths_cents", temperament.fifths_cents},
            {"pitch_classes", classes}};
}

void print_table(const Temperament& temperament, double a4_hz)
{
    using Align = Table::Align;
    Table table{{{"From C4"},
                 {"Hz", Align::right},
                 {"from equal", Align::right},
                 {"major third", Align::right},
                 {"beats/s", Align::right},
                 {"fifth beats/s", Align::right}}};
    const Json json = json_of(temperament, a4_hz);
    for (const auto& row : json["pitch_classes"])
        table.add_row({row["name"].get<std::string>(),
                       fmt::format("{:.2f}", row["frequency_hz"].get<double>()),
                       format_signed(row["deviation_cents"].get<double>(), 2),
                       fmt::format("{:.2f}", row["major_third_cents"].get<double>()),
                       fmt::format("{:.1f}", row["major_third_beats_per_second"].get<double>()),
                       fmt::format("{:.1f}", row["fifth_beats_per_second"].get<double>())});
    print_line(fmt::format("{} at A4 = {:g} Hz, in cents", temperament.title, a4_hz));
    table.print();
    print_line("A harp's steps are equal semitones: a string is right in the position it was tuned in.");
}

Result<void> temperament(const Common& common, const TemperamentWords& words)
{
    if (words.name.empty()) {
        Json list = Json::array();
        for (const auto& one : all_temperaments()) {
            list.push_back({{"name", one.name}, {"title", one.title}});
            if (!common.json) print_line(fmt::format("{:16}{}", one.name, one.title));
        }
        if (common.json) print_json(list);
        return {};
    }
    const auto* found = find_temperament(words.name);
    if (found == nullptr) {
        std::string names;
        for (const auto& one : all_temperaments())
            names += fmt::format("{}{}", names.empty() ? "" : ", ", one.name);
        return failure(ErrorCode::not_found,
                       fmt::format("\"{}\" is no temperament known here; there are {}", words.name, names));
    }
    if (common.json)
        print_json(json_of(*found, words.a4_hz));
    else
        print_table(*found, words.a4_hz);
    return {};
}

} // namespace

void add_command_temperament(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<TemperamentWords>(app, common, work, "temperament",
                                                 "temperaments: cents, thirds and beats", temperament);
    verb.app->add_option("NAME", verb.words->name, "which one (default: list them)");
    verb.app->add_option("--a4", verb.words->a4_hz, "reference pitch in hertz")
        ->check(CLI::Range(392.0, 466.5))
        ->capture_default_str();
}

} // namespace harpkeep::cli
