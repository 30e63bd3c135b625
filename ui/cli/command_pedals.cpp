// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"
#include "exchange/harp_pedals_xml.hpp"
#include "harp/key_setting.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/file_output.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_score_bytes = 67'108'864;

struct PedalWords {
    std::vector<std::string> setting;
    std::string score;
    bool musicxml = false;
};

Result<std::vector<PedalSetting>> settings_from(const PedalWords& words)
{
    if (words.setting.empty() == words.score.empty())
        return failure(
            ErrorCode::invalid_argument,
            "give a pedal setting (\"Db C# Bb E Fb G A#\", ^v^|-^-v or a key as in E flat major), or --from FILE");
    if (!words.score.empty()) {
        const auto bytes = db::file_bytes(words.score, largest_score_bytes);
        if (!bytes) return failure(bytes.error());
        const std::string_view xml{reinterpret_cast<const char*>(bytes->data()), bytes->size()};
        auto settings = pedal_settings_from_xml(xml);
        if (!settings) return failure(settings.error().within(words.score));
        return settings;
    }
    std::string text;
    for (const std::string& word : words.setting) text += (text.empty() ? "" : " ") + word;
    const auto setting = setting_from_text(text);
    if (!setting) return failure(setting.error());
    return std::vector{*setting};
}

Json json_of(const PedalSetting& setting)
{
    Json pedals;
    for (const Letter letter : pedal_order)
        pedals[std::string(1, letter_name(letter))] = position_name(setting.position(letter));
    return {{"diagram", pedal_diagram(setting)}, {"names", pedal_names(setting)}, {"pedals", pedals}};
}

Result<void> pedals(const Common& common, const PedalWords& words)
{
    const auto settings = settings_from(words);
    if (!settings) return failure(settings.error());
    Json all = Json::array();
    for (const PedalSetting& setting : *settings) {
        if (words.musicxml) {
            const auto written = write_output("-", harp_pedals_xml(setting));
            if (!written) return failure(written.error());
        } else if (common.json) {
            all.push_back(json_of(setting));
        } else {
            print_line(fmt::format("{}   {}", pedal_diagram(setting), pedal_names(setting)));
        }
    }
    if (common.json && !words.musicxml) print_json(all);
    return {};
}

} // namespace

void add_command_pedals(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<PedalWords>(app, common, work, "pedals",
                                           "a pedal setting as diagram, names and MusicXML", pedals);
    verb.app->add_option("SETTING", verb.words->setting,
                         "\"Db C# Bb E Fb G A#\", a diagram as \"^v^|-^-v\", or a key as in \"E flat major\"");
    verb.app->add_option("--from", verb.words->score, "the settings in a MusicXML file instead");
    verb.app->add_flag("--musicxml", verb.words->musicxml, "print as MusicXML harp-pedals");
}

} // namespace harpkeep::cli
