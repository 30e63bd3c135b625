// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"
#include "reason/replacement.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/string_json.hpp"
#include "ui/cli/string_words.hpp"
#include "ui/cli/verb.hpp"

namespace harpkeep::cli {

namespace {

struct ReplaceWords {
    StringWords strings;
    std::string date;
    double days_long = 1.0;
    double least_percent = 10.0;
};

Result<void> replace(const Common& common, const ReplaceWords& words)
{
    const auto asked = ask_strings(common, words.strings);
    if (!asked) return failure(asked.error());
    const auto days = days_until(asked->knowledge, words.date);
    if (!days) return failure(days.error());
    const auto model = ui::learnt_lives(asked->knowledge);
    if (!model) return failure(model.error());
    const auto plan =
        plan_replacements(*model, asked->in_use, {.days_until = *days, .days_long = words.days_long},
                          {.least_chance = words.least_percent / 100.0});

    auto sentences = replacement_sentences(plan);
    for (auto& sentence : history_sentences(asked->knowledge.history))
        sentences.push_back(std::move(sentence));
    if (common.json) {
        Json document = json_of(plan);
        document["as_of"] = iso_date(asked->knowledge.today);
        document["text"] = sentences;
        print_json(document);
    } else
        print_sentences(sentences);
    return {};
}

} // namespace

void add_command_replace(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<ReplaceWords>(
        app, common, work, "replace", "strings to renew before a concert, an examination or a term", replace);
    verb.app->add_option("--by", verb.words->date, "first day of it, as 2026-06-01")->required();
    verb.app->add_option("--lasting", verb.words->days_long, "how many days it lasts")
        ->check(CLI::Range(1.0, 3650.0))
        ->capture_default_str();
    add_string_options(*verb.app, verb.words->strings);
    verb.app
        ->add_option("--from-percent", verb.words->least_percent,
                     "list strings from this chance of breaking on")
        ->check(CLI::Range(0.1, 99.0))
        ->capture_default_str();
}

} // namespace harpkeep::cli
