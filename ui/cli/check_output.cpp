// SPDX-License-Identifier: MIT
#include "ui/cli/check_output.hpp"

#include "units/format.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace harpkeep::cli {

namespace {

std::string file_name(const std::vector<std::string>& files, int index)
{
    return index >= 0 && static_cast<std::size_t>(index) < files.size()
               ? files[static_cast<std::size_t>(index)]
               : std::string{};
}

Json doubts_of(const PluckMeasurement& pluck)
{
    Json reasons = Json::array();
    for (const Doubt doubt : pluck.doubts) reasons.push_back(doubt_name(doubt));
    return reasons;
}

std::string cents_cell(double value_cents, double uncertainty_cents)
{
    return format_cents(Cents{value_cents}, Cents{uncertainty_cents});
}

struct StringSteps {
    const StepError* lower = nullptr;
    const StepError* upper = nullptr;
    const WholeStepError* whole = nullptr;

    [[nodiscard]] double worst_cents() const
    {
        return std::max(lower ? std::abs(lower->error_cents) : 0.0,
                        upper ? std::abs(upper->error_cents) : 0.0);
    }
};

void print_steps(HarpKind kind, const CheckResult& check)
{
    const bool pedals = kind == HarpKind::pedal;
    std::map<int, StringSteps> by_string;
    for (const auto& step : check.steps)
        (step.step == Step::lower ? by_string[step.place.diatonic_index()].lower
                                  : by_string[step.place.diatonic_index()].upper) = &step;
    for (const auto& whole : check.whole_steps) by_string[whole.place.diatonic_index()].whole = &whole;

    std::vector<std::pair<StringPlace, StringSteps>> rows;
    for (const auto& [index, steps] : by_string) rows.emplace_back(place_from_diatonic_index(index), steps);
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
        return a.second.worst_cents() > b.second.worst_cents();
    });

    std::vector<Table::Column> columns{{"string", Table::Align::left},
                                       {pedals ? "flat to natural" : "open to engaged", Table::Align::right}};
    if (pedals) {
        columns.push_back({"natural to sharp", Table::Align::right});
        columns.push_back({"flat to sharp", Table::Align::right});
    }
    Table table(columns);
    for (const auto& [place, steps] : rows) {
        std::vector<std::string> cells{
            harp_name(place),
            steps.lower ? cents_cell(steps.lower->error_cents, steps.lower->uncertainty_cents) : "–"};
        if (pedals) {
            cells.push_back(steps.upper ? cents_cell(steps.upper->error_cents, steps.upper->uncertainty_cents)
                                        : "–");
            cells.push_back(steps.whole ? cents_cell(steps.whole->error_cents, steps.whole->uncertainty_cents)
                                        : "–");
        }
        table.add_row(cells);
    }
    print_line(
        fmt::format("\nCents from a true semitone{}, worst strings first; ± is one standard uncertainty.",
                    pedals ? " (flat to sharp: from a whole tone)" : ""));
    table.print();
}

void print_doubtful(const CheckResult& check, const std::vector<std::string>& files)
{
    Table table({{"string"}, {"position"}, {"at", Table::Align::right}, {"file"}, {"why it was not used"}});
    for (const auto& reading : check.readings) {
        if (reading.pluck.trusted()) continue;
        std::string why;
        for (const Doubt doubt : reading.pluck.doubts)
            why += fmt::format("{}{}", why.empty() ? "" : " ", doubt_advice(doubt));
        table.add_row({harp_name(reading.place), std::string{position_name(reading.position)},
                       fmt::format("{:.1f} s", reading.pluck.start_s), file_name(files, reading.file_index),
                       why});
    }
    if (table.empty()) return;
    print_line("\nDoubtful, not used:");
    table.print();
}

void print_missing(const CheckResult& check)
{
    if (check.missing.empty()) return;
    std::map<Position, std::string> names;
    for (const auto& missing : check.missing) {
        auto& list = names[missing.position];
        list += fmt::format("{}{}", list.empty() ? "" : ", ", harp_name(missing.place));
    }
    print_line("\nMissing:");
    for (const auto& [position, list] : names)
        print_line(fmt::format("  {}: {}", position_name(position), list));
}

} // namespace

Json json_of_pluck(const std::string& file, const PluckMeasurement& pluck)
{
    return {{"file", file},
            {"start_s", pluck.start_s},
            {"frequency_hz", pluck.frequency_hz},
            {"uncertainty_cents", pluck.uncertainty_cents},
            {"inharmonicity", pluck.inharmonicity},
            {"decay_s", pluck.decay_s},
            {"snr_db", pluck.snr_db},
            {"glide_cents", pluck.glide_cents},
            {"trusted", pluck.trusted()},
            {"reasons", doubts_of(pluck)}};
}

Json json_of_check(const std::string& harp, const CheckResult& check, const std::vector<std::string>& files)
{
    Json json{{"harp", harp},
              {"a4_hz", check.a4_hz},
              {"readings", Json::array()},
              {"steps", Json::array()},
              {"whole_steps", Json::array()},
              {"missing", Json::array()},
              {"ignored", Json::array()},
              {"remarks", check.remarks}};
    for (const auto& reading : check.readings)
        json["readings"].push_back({{"place", harp_name(reading.place)},
                                    {"position", position_name(reading.position)},
                                    {"frequency_hz", reading.pluck.frequency_hz},
                                    {"uncertainty_cents", reading.pluck.uncertainty_cents},
                                    {"start_s", reading.pluck.start_s},
                                    {"file", file_name(files, reading.file_index)},
                                    {"trusted", reading.pluck.trusted()},
                                    {"reasons", doubts_of(reading.pluck)}});
    for (const auto& step : check.steps)
        json["steps"].push_back({{"place", harp_name(step.place)},
                                 {"step", step_name(step.step)},
                                 {"error_cents", step.error_cents},
                                 {"uncertainty_cents", step.uncertainty_cents}});
    for (const auto& whole : check.whole_steps)
        json["whole_steps"].push_back({{"place", harp_name(whole.place)},
                                       {"error_cents", whole.error_cents},
                                       {"uncertainty_cents", whole.uncertainty_cents}});
    for (const auto& missing : check.missing)
        json["missing"].push_back(
            {{"place", harp_name(missing.place)}, {"position", position_name(missing.position)}});
    for (const auto& ignored : check.ignored)
        json["ignored"].push_back({{"file", file_name(files, ignored.file_index)},
                                   {"start_s", ignored.start_s},
                                   {"reason", ignored.reason}});
    return json;
}

void print_check(const std::string& harp, const HarpLayout& layout, const CheckResult& check,
                 const std::vector<std::string>& files)
{
    std::size_t trusted = 0, possible = 0;
    for (const auto& reading : check.readings) trusted += reading.pluck.trusted();
    for (const auto& string : layout.strings) possible += steps_of(layout.kind, string).size();
    print_line(fmt::format("{}: {}, {} used; {} of {} steps measured; A4 = {:.1f} Hz.", harp,
                           counted(check.readings.size(), "reading"), trusted, check.steps.size(), possible,
                           check.a4_hz));
    if (!check.steps.empty()) print_steps(layout.kind, check);
    print_doubtful(check, files);
    print_missing(check);
    if (!check.ignored.empty()) {
        print_line("\nHeard, but no string of this harp:");
        Table table({{"at", Table::Align::right}, {"file"}, {"what"}});
        for (const auto& ignored : check.ignored)
            table.add_row({fmt::format("{:.1f} s", ignored.start_s), file_name(files, ignored.file_index),
                           ignored.reason});
        table.print();
    }
    if (!check.remarks.empty()) print_line("");
    for (const auto& remark : check.remarks) print_line(remark);
}

} // namespace harpkeep::cli
