// SPDX-License-Identifier: MIT
#include "ui/cli/piece_words.hpp"

#include "db/ledger/file_bytes.hpp"
#include "exchange/harp_pedals_xml.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <sstream>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_piece_bytes = 1'048'576;
constexpr std::int64_t largest_score_bytes = 67'108'864;

/// "E flat major x 12": a setting and how much it counts.
Result<UsedSetting> used_setting(const std::string& line)
{
    std::string text = line;
    double weight = 1.0;
    if (const auto times = line.rfind(" x "); times != std::string::npos) {
        const auto number = line.substr(times + 3);
        const auto end = number.data() + number.size();
        const auto read = std::from_chars(number.data(), end, weight);
        if (read.ec != std::errc{} || read.ptr != end || !(weight > 0.0))
            return failure(ErrorCode::invalid_argument, fmt::format("\"{}\" is no weight; write \"{} x 12\"",
                                                                    number, line.substr(0, times)));
        text = line.substr(0, times);
    }
    const auto setting = setting_from_text(text);
    if (!setting) return failure(setting.error());
    return UsedSetting{*setting, weight};
}

/// One setting a line; empty lines and what follows a semicolon are left out.
Result<std::vector<UsedSetting>> settings_of_piece(const std::string& path)
{
    const auto bytes = db::file_bytes(path, largest_piece_bytes);
    if (!bytes) return failure(bytes.error());
    std::istringstream lines{std::string(bytes->begin(), bytes->end())};
    std::vector<UsedSetting> settings;
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        line.erase(std::min(line.find(';'), line.size()));
        line.erase(line.find_last_not_of(" \t\r") + 1);
        if (line.empty()) continue;
        const auto used = used_setting(line);
        if (!used) return failure(used.error().within(fmt::format("{} line {}", path, number)));
        settings.push_back(*used);
    }
    if (settings.empty())
        return failure(ErrorCode::unusable_input,
                       path + " holds no setting; write one a line, as \"E flat major x 12\"");
    return settings;
}

/// The harp-pedals of a score, each counted as often as it is written.
Result<std::vector<UsedSetting>> settings_of_score(const std::string& path)
{
    const auto bytes = db::file_bytes(path, largest_score_bytes);
    if (!bytes) return failure(bytes.error());
    const auto written =
        pedal_settings_from_xml({reinterpret_cast<const char*>(bytes->data()), bytes->size()});
    if (!written) return failure(written.error().within(path));
    std::vector<UsedSetting> settings;
    for (const auto& setting : *written) {
        const auto same = std::find_if(settings.begin(), settings.end(),
                                       [&](const UsedSetting& used) { return used.setting == setting; });
        if (same == settings.end())
            settings.push_back({setting, 1.0});
        else
            same->weight += 1.0;
    }
    return settings;
}

std::vector<std::string> temperament_names()
{
    std::vector<std::string> names;
    for (const auto& temperament : all_temperaments()) names.emplace_back(temperament.name);
    return names;
}

} // namespace

Result<std::vector<UsedSetting>> settings_of(const PieceWords& words)
{
    if (!words.settings.empty() + !words.piece.empty() + !words.score.empty() != 1)
        return failure(
            ErrorCode::invalid_argument,
            "give the settings of the piece in one way: --setting (a key, \"^v^|-^-v\" or letters; may "
            "be repeated), --piece FILE with one a line, or --score FILE in MusicXML");
    if (!words.piece.empty()) return settings_of_piece(words.piece);
    if (!words.score.empty()) return settings_of_score(words.score);
    std::vector<UsedSetting> settings;
    for (const auto& text : words.settings) {
        const auto used = used_setting(text);
        if (!used) return failure(used.error());
        settings.push_back(*used);
    }
    return settings;
}

TuneGoal goal_of(const PieceWords& words)
{
    return words.goal == "greatest" ? TuneGoal::least_greatest : TuneGoal::least_mean_square;
}

Temperament temperament_of(const PieceWords& words)
{
    return *find_temperament(words.temperament); // CLI11 allows no other
}

void add_piece_options(CLI::App& app, PieceWords& words)
{
    app.add_option(
        "--setting", words.settings,
        "a pedal setting of the piece: \"E flat major\", \"^v^|-^-v\", letters; \" x 12\" after it says "
        "how much it counts; may be repeated");
    app.add_option("--piece", words.piece, "a file with one such setting a line");
    app.add_option("--score", words.score, "a MusicXML file whose harp-pedals are the settings");
    app.add_option("--temperament", words.temperament, "what to tune to")
        ->check(CLI::IsMember(temperament_names()))
        ->capture_default_str();
    app.add_option("--goal", words.goal,
                   "greatest: the worst note as good as can be; mean-square: what sounds most")
        ->check(CLI::IsMember({"greatest", "mean-square"}))
        ->capture_default_str();
    app.add_option("--a4", words.a4_hz, "reference pitch in hertz (default: that of the check)")
        ->check(CLI::Range(392.0, 466.5));
}

} // namespace harpkeep::cli
