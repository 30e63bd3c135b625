// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/string_json.hpp"
#include "ui/cli/string_words.hpp"
#include "ui/cli/verb.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct OrderWords {
    StringWords strings;
    std::string date;
    double level_percent = 5.0;
    std::string rule = "all-together";
    std::string cost_of_missing;
    bool csv = false;
};

SpareRule rule_named(const std::string& name)
{
    if (name == "each-kind") return SpareRule::each_kind;
    return name == "least-cost" ? SpareRule::least_cost : SpareRule::all_together;
}

Result<SpareSettings> settings_from(const OrderWords& words)
{
    SpareSettings settings{.rule = rule_named(words.rule), .miss_chance = words.level_percent / 100.0};
    if (settings.rule != SpareRule::least_cost) return settings;
    if (words.cost_of_missing.empty())
        return failure(ErrorCode::invalid_argument,
                       "least-cost needs to know what a missing string costs: --missing \"50.00 EUR\"");
    const auto cost = money_argument(words.cost_of_missing);
    if (!cost) return failure(cost.error());
    if (cost->minor_units <= 0)
        return failure(ErrorCode::invalid_argument, "what a missing string costs must be more than nothing");
    settings.cost_of_missing_minor_units = static_cast<double>(cost->minor_units);
    settings.currency = cost->currency;
    return settings;
}

/// While nothing has broken: what harpists carry takes the place of a calculation.
std::string skeleton_sentence()
{
    std::vector<std::string> names;
    for (const auto place : skeleton_set()) names.push_back(harp_name(place));
    return fmt::format("Until then carry what harpists usually do, one each of {}.", fmt::join(names, " "));
}

std::vector<std::string> order_sentences(const SparePlan& plan)
{
    auto sentences = spare_sentences(plan);
    for (const auto& total : plan.totals)
        sentences.push_back(
            fmt::format("The order costs {}.", money_text({total.minor_units, total.currency})));
    return sentences;
}

Result<void> order(const Common& common, const OrderWords& words)
{
    const auto settings = settings_from(words);
    if (!settings) return failure(settings.error());
    const auto asked = ask_strings(common, words.strings);
    if (!asked) return failure(asked.error());
    const auto days = days_until(asked->knowledge, words.date);
    if (!days) return failure(days.error());
    const auto model = ui::learnt_lives(asked->knowledge);
    if (!model)
        return failure(model.error().code, fmt::format("{} {}", model.error().message, skeleton_sentence()));
    const auto situation = ui::spare_situation(asked->knowledge);
    const auto plan = plan_spares(*model, situation.in_use, situation.kinds, *days + 1.0, *settings);

    if (words.csv) {
        fmt::print("{}", order_csv(plan));
    } else if (common.json) {
        Json document = json_of(plan);
        document["as_of"] = iso_date(asked->knowledge.today);
        document["text"] = order_sentences(plan);
        print_json(document);
    } else {
        print_sentences(order_sentences(plan));
        print_sentences(history_sentences(asked->knowledge.history));
    }
    return {};
}

} // namespace

void add_spare_order(CLI::App& spare, Common& common, Work& work)
{
    const auto verb = add_verb<OrderWords>(spare, common, work, "order",
                                           "what to order so that no string will be missing", order);
    verb.app
        ->add_option("--until", verb.words->date, "the stock must last to the end of this day, as 2026-07-31")
        ->required();
    verb.app
        ->add_option("--level", verb.words->level_percent, "accepted chance of missing a string, in percent")
        ->check(CLI::Range(0.01, 99.0))
        ->capture_default_str();
    verb.app
        ->add_option(
            "--rule", verb.words->rule,
            "all-together: hardly ever any string missing; each-kind: kind by kind; least-cost: what is in "
            "stock against what a missing string costs")
        ->check(CLI::IsMember({"all-together", "each-kind", "least-cost"}))
        ->capture_default_str();
    verb.app->add_option("--missing", verb.words->cost_of_missing,
                         "what a missing string costs, for least-cost: \"50.00 EUR\"");
    verb.app->add_option("--as-of", verb.words->strings.as_of,
                         "the day to speak of, as 2026-03-04 (default: today)");
    verb.app->add_flag("--csv", verb.words->csv, "the order list as CSV");
}

} // namespace harpkeep::cli
