// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/string_json.hpp"
#include "ui/cli/string_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>

namespace harpkeep::cli {

namespace {

struct RiskWords {
    StringWords strings;
    std::string within = "90d";
    std::string until;
    bool all = false;
};

Result<double> horizon_days(const ui::StringKnowledge& knowledge, const RiskWords& words)
{
    if (words.until.empty()) return span_argument(words.within);
    const auto days = days_until(knowledge, words.until);
    if (!days) return failure(days.error());
    return *days + 1.0; // the whole of that day
}

void print_risks(const RiskReport& report, bool all)
{
    constexpr std::size_t screenful = 15;
    const auto shown = all ? report.strings.size() : std::min(screenful, report.strings.size());
    for (std::size_t i = 0; i < shown; ++i) print_line(risk_sentence(report.strings[i], report.within_days));
    if (shown < report.strings.size())
        print_line(counted(report.strings.size() - shown, "string") + " at less risk; --all lists them.");
}

Result<void> risk(const Common& common, const RiskWords& words)
{
    const auto asked = ask_strings(common, words.strings);
    if (!asked) return failure(asked.error());
    const auto days = horizon_days(asked->knowledge, words);
    if (!days) return failure(days.error());
    const auto model = ui::learnt_lives(asked->knowledge, grouping_from_name(words.strings.grouping).value());
    if (!model) return failure(model.error());
    const auto report = break_risks(*model, asked->in_use, *days);

    auto sentences = risk_summary_sentences(report);
    for (auto& sentence : history_sentences(asked->knowledge.history))
        sentences.push_back(std::move(sentence));
    if (common.json) {
        Json document = json_of(report);
        document["as_of"] = iso_date(asked->knowledge.today);
        document["text"] = sentences;
        print_json(document);
        return {};
    }
    print_risks(report, words.all);
    print_sentences(sentences);
    return {};
}

} // namespace

void add_command_risk(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<RiskWords>(app, common, work, "risk",
                                          "chance for each string on the harps that it breaks", risk);
    add_string_options(*verb.app, verb.words->strings);
    auto* const within =
        verb.app->add_option("--within", verb.words->within, "time ahead: 90d, 6w, 18m or 1y")
            ->capture_default_str();
    verb.app->add_option("--until", verb.words->until, "to the end of this day, as 2026-06-01")
        ->excludes(within);
    add_grouping_option(*verb.app, verb.words->strings);
    verb.app->add_flag("--all", verb.words->all, "all strings, not only the likeliest");
}

} // namespace harpkeep::cli
