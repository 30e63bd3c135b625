// SPDX-License-Identifier: MIT
#include "reason/tune_text.hpp"
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct UsableWords {
    ReasonWords reason;
    std::string setting;
};

Json table_json(const UsableSettings& table)
{
    Json letters = Json::array();
    for (const auto& letter : table.letters)
        for (const auto& use : letter) letters.push_back(json_of(use));
    Json keys = Json::array();
    for (const auto& key : table.keys) keys.push_back(json_of(key));
    return {{"settings", table.settings},
            {"usable", table.usable},
            {"not_proven", table.not_proven},
            {"not_usable", table.not_usable},
            {"with_notes_not_measured", table.with_gaps},
            {"notes", table.notes},
            {"notes_measured", table.notes_measured},
            {"letters", letters},
            {"keys", keys}};
}

void print_basis(const ToleranceSettings& tolerances)
{
    print_line(interval_remark);
    print_line(tolerance_sentence(tolerances));
    print_line(whole_step_sentence(tolerances));
}

Result<void> usable(const Common& common, const UsableWords& words)
{
    const auto asked = ask_with_check(common, words.reason);
    if (!asked) return failure(asked.error());
    const auto& check = asked->knowledge.check->result;
    const auto table = find_usable_settings(asked->knowledge.harp.details.layout, check.steps,
                                            check.whole_steps, asked->knowledge.tolerances);
    std::optional<SettingUse> one;
    if (!words.setting.empty()) {
        const auto setting = setting_from_text(words.setting);
        if (!setting) return failure(setting.error());
        one = judge_setting(table, *setting);
    }
    if (common.json) {
        Json document = subject_json(*asked);
        document.update(one ? json_of(*one) : table_json(table));
        document["text"] = one ? std::vector{setting_sentence(*one)} : usable_sentences(table);
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    if (one) {
        print_line(setting_sentence(*one));
        print_basis(asked->knowledge.tolerances);
        return {};
    }
    print_sentences(usable_sentences(table));
    print_line("");
    for (const auto& key : table.keys)
        if (words.reason.all || key.name.find("major") != std::string::npos)
            print_line(setting_sentence(key));
    print_basis(asked->knowledge.tolerances);
    return {};
}

} // namespace

void add_command_settings(CLI::App& app, Common& common, Work& work)
{
    auto& noun = add_noun(app, "settings", "pedal settings of a harp");
    const auto verb =
        add_verb<UsableWords>(noun, common, work, "usable", "which settings are in tune today", usable);
    add_reason_options(*verb.app, verb.words->reason);
    verb.app->add_option("--setting", verb.words->setting,
                         "judge this one only: a key, \"^v^|-^-v\" or letters");
}

} // namespace harpkeep::cli
