// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"
#include "exchange/harp_pedals_xml.hpp"
#include "reason/tune_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <map>
#include <sstream>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_piece_bytes = 1'048'576;
constexpr std::int64_t largest_score_bytes = 67'108'864;

struct TuneWords {
    ReasonWords reason;
    std::vector<std::string> settings;
    std::string piece;
    std::string score;
    std::string temperament = "equal";
    std::string goal = "greatest";
    std::optional<double> a4_hz;
};

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

Result<std::vector<UsedSetting>> settings_from(const TuneWords& words)
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

Result<TuneAroundRequest> request_from(const TuneWords& words, double check_a4_hz)
{
    auto settings = settings_from(words);
    if (!settings) return failure(settings.error());
    const auto* temperament = find_temperament(words.temperament);
    return TuneAroundRequest{.settings = std::move(*settings),
                             .goal = words.goal == "greatest" ? TuneGoal::least_greatest
                                                              : TuneGoal::least_mean_square,
                             .temperament = *temperament, // CLI11 allows no other
                             .a4_hz = words.a4_hz.value_or(check_a4_hz)};
}

Json request_json(const TuneAroundRequest& request)
{
    Json settings = Json::array();
    for (const auto& used : request.settings)
        settings.push_back({{"diagram", pedal_diagram(used.setting)},
                            {"pedals", pedal_names(used.setting)},
                            {"weight", used.weight}});
    return {{"a4_hz", request.a4_hz},
            {"temperament", request.temperament.name},
            {"goal", request.goal == TuneGoal::least_greatest ? "greatest" : "mean-square"},
            {"settings", settings}};
}

Result<void> tune(const Common& common, const TuneWords& words)
{
    const auto asked = ask_with_check(common, words.reason);
    if (!asked) return failure(asked.error());
    const auto& check = asked->knowledge.check->result;
    const auto request = request_from(words, check.a4_hz);
    if (!request) return failure(request.error());
    const auto result =
        tune_around(asked->knowledge.harp.details.layout, check.steps, check.whole_steps, *request);
    if (common.json) {
        Json document = subject_json(*asked);
        document.update(request_json(*request));
        document.update(json_of(result));
        document["text"] = tune_around_sentences(result);
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    for (const auto& used : request->settings)
        print_line(fmt::format("{}  {}  x {:g}", pedal_diagram(used.setting), pedal_names(used.setting),
                               used.weight));
    print_sentences(tune_around_sentences(result));
    print_line("");
    for (const auto& string : result.strings) print_line(tuning_line(string));
    return {};
}

std::vector<std::string> temperament_names()
{
    std::vector<std::string> names;
    for (const auto& temperament : all_temperaments()) names.emplace_back(temperament.name);
    return names;
}

} // namespace

void add_command_tune_around(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<TuneWords>(app, common, work, "tune-around",
                                          "where to tune the open strings so that a piece errs least", tune);
    auto& words = *verb.words;
    add_reason_options(*verb.app, words.reason);
    verb.app->add_option(
        "--setting", words.settings,
        "a pedal setting of the piece: \"E flat major\", \"^v^|-^-v\", letters; \" x 12\" after it says "
        "how much it counts; may be repeated");
    verb.app->add_option("--piece", words.piece, "a file with one such setting a line");
    verb.app->add_option("--score", words.score, "a MusicXML file whose harp-pedals are the settings");
    verb.app->add_option("--temperament", words.temperament, "what to tune to")
        ->check(CLI::IsMember(temperament_names()))
        ->capture_default_str();
    verb.app
        ->add_option("--goal", words.goal,
                     "greatest: the worst note as good as can be; mean-square: what sounds most")
        ->check(CLI::IsMember({"greatest", "mean-square"}))
        ->capture_default_str();
    verb.app->add_option("--a4", words.a4_hz, "reference pitch in hertz (default: that of the check)")
        ->check(CLI::Range(392.0, 466.5));
}

} // namespace harpkeep::cli
