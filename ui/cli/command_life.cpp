// SPDX-License-Identifier: MIT
#include "reason/life_study.hpp"
#include "reason/life_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/string_json.hpp"
#include "ui/cli/string_words.hpp"
#include "ui/cli/verb.hpp"

namespace harpkeep::cli {

namespace {

Json left_out_json(const StringHistory& history)
{
    return {{"unknown_age", history.unknown_age},
            {"unknown_removal_reason", history.unknown_reason},
            {"vague_dates", history.vague_dates}};
}

Result<void> life(const Common& common, const StringWords& words)
{
    const auto asked = ask_strings(common, words);
    if (!asked) return failure(asked.error());
    const auto& history = asked->knowledge.history;
    const auto study = study_lives(
        history.observed, {.grouping = grouping_from_name(words.grouping).value()}); // CLI11 saw to it
    const auto clusters = ui::break_clusters(asked->knowledge);

    auto sentences = study_sentences(study, history.calendar_years);
    for (const auto& report : clusters)
        for (auto& sentence : cluster_sentences(report)) sentences.push_back(std::move(sentence));
    for (auto& sentence : history_sentences(history)) sentences.push_back(std::move(sentence));
    if (!common.json) {
        print_sentences(sentences);
        return {};
    }
    Json document = json_of(study);
    document["as_of"] = iso_date(asked->knowledge.today);
    document["calendar_years"] = history.calendar_years;
    document["left_out"] = left_out_json(history);
    document["places"] = clusters.empty() ? Json(nullptr) : json_of(clusters[0]);
    document["harps"] = clusters.empty() ? Json(nullptr) : json_of(clusters[1]);
    document["text"] = sentences;
    print_json(document);
    return {};
}

} // namespace

void add_command_life(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<StringWords>(app, common, work, "life",
                                            "how long strings last, and where they break too often", life);
    verb.app->add_option("--as-of", verb.words->as_of, "the day to speak of, as 2026-03-04 (default: today)");
    add_grouping_option(*verb.app, *verb.words);
}

} // namespace harpkeep::cli
