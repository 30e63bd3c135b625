// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"

#include "reason/estimate_text.hpp"
#include "reason/string_cautions.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

namespace {

std::string replacement_sentence(const ReplacementLine& line)
{
    const auto name = fmt::format("{} {}", line.risk.string.harp, harp_name(line.risk.string.place));
    if (line.advice == ReplacementAdvice::replace)
        return fmt::format("Replace {}: {} to break by then, a new one {}.", name,
                           chance_text(line.risk.chance), probability_text(line.risk.chance_if_new.value));
    return fmt::format("{}: {} to break by then, but a new one {}: better carry a spare.", name,
                       chance_text(line.risk.chance), probability_text(line.risk.chance_if_new.value));
}

std::string where(const BreakCluster& cluster)
{
    return cluster.place ? fmt::format("{} {}", cluster.harp, harp_name(*cluster.place)) : cluster.harp;
}

std::string cluster_sentence(const BreakCluster& cluster, const ClusterReport& report)
{
    const auto point = cluster.usual_break_point.empty()
                           ? std::string{}
                           : fmt::format(", mostly at the {}", cluster.usual_break_point);
    const auto figures =
        fmt::format("{} broke {}{}, where {} were to be expected of its like", where(cluster),
                    cluster.breaks == 2 ? std::string{"twice"} : fmt::format("{} times", cluster.breaks),
                    point, count_text(cluster.expected_breaks));
    if (cluster.beyond_chance)
        return fmt::format("{}: chance alone would show as much anywhere among {} in {} of cases. {}",
                           figures,
                           report.key == ClusterKey::place ? counted(report.looked_at, "place")
                                                           : counted(report.looked_at, "harp"),
                           probability_text(cluster.corrected_chance),
                           cluster.place ? "Have a technician look for a sharp edge there."
                                         : "Room, climate or stringing may be behind it.");
    return fmt::format(
        "{}: {} by chance here, but not rare enough among all that were looked at to prove anything.",
        figures, probability_text(cluster.chance));
}

std::string rule_words(const SparePlan& plan)
{
    switch (plan.rule) {
    case SpareRule::all_together:
        return fmt::format("so that the chance of missing any string stays under {}",
                           percent_text(plan.level));
    case SpareRule::each_kind:
        return fmt::format("so that the chance of missing a string of a kind stays under {}",
                           percent_text(plan.level));
    case SpareRule::least_cost:
        break;
    }
    return "so that stock and missing strings cost least together";
}

std::string order_sentence(const SpareLine& line)
{
    return fmt::format(
        "Order {} of {}: {} in use, {} expected to break, {} in stock; chance of missing one "
        "{} now, {} then{}.",
        line.to_order, line.kind.name, line.strings_in_use, expected_count_text(line.expected_breaks),
        line.kind.in_stock, probability_text(line.chance_missing_now.value),
        probability_text(line.chance_missing_after),
        line.group_never_watched ? " (no such string was watched yet, so judged by all others)" : "");
}

} // namespace

std::vector<std::string> replacement_sentences(const ReplacementPlan& plan)
{
    std::vector<std::string> sentences;
    const auto count = [&plan](ReplacementAdvice advice) {
        return std::count_if(plan.lines.begin(), plan.lines.end(),
                             [advice](const ReplacementLine& line) { return line.advice == advice; });
    };
    for (const auto& line : plan.lines)
        if (line.advice != ReplacementAdvice::leave) sentences.push_back(replacement_sentence(line));
    if (count(ReplacementAdvice::replace) == 0)
        sentences.emplace_back("No string is worth replacing for that date.");
    else {
        sentences.push_back(
            fmt::format("At least one string breaks by then: {} as it is, {} with the new ones.",
                        chance_text(plan.any_break_as_is), chance_text(plan.any_break_after)));
        sentences.emplace_back(
            plan.settles_too_late
                ? "New strings take about two weeks to settle, so they will still stretch on the day."
                : "New strings take about two weeks to settle: put them on in time.");
        sentences.emplace_back(cautions::removal);
    }
    sentences.push_back(fmt::format("This rests on {} of {}. {}", counted(plan.evidence.failures, "break"),
                                    counted(plan.evidence.observations, "string"), cautions::estimate));
    return sentences;
}

std::vector<std::string> cluster_sentences(const ClusterReport& report)
{
    constexpr double worth_a_look = 0.01; // of one place by itself; the project's own choice
    std::vector<std::string> sentences;
    for (const auto& cluster : report.clusters)
        if (cluster.beyond_chance || cluster.chance < worth_a_look)
            sentences.push_back(cluster_sentence(cluster, report));
    if (sentences.empty())
        sentences.push_back(fmt::format("Breaks are spread as chance spreads them over {}.",
                                        report.key == ClusterKey::place ? counted(report.looked_at, "place")
                                                                        : counted(report.looked_at, "harp")));
    return sentences;
}

std::vector<std::string> spare_sentences(const SparePlan& plan)
{
    std::vector<std::string> sentences;
    sentences.push_back(fmt::format("Spares for {}, {}.", span_text(plan.days), rule_words(plan)));
    int ordered = 0, not_weighed = 0;
    for (const auto& line : plan.lines) {
        ordered += line.to_order;
        not_weighed += line.not_weighed ? 1 : 0;
        if (line.to_order > 0) sentences.push_back(order_sentence(line));
    }
    sentences.push_back(
        fmt::format("Missing any string in that time: {} with the present stock, {} with {} more.",
                    chance_text(plan.any_missing_now), probability_text(plan.any_missing_after.value),
                    counted(ordered, "string")));
    if (plan.unpriced_orders > 0)
        sentences.push_back(
            fmt::format("{} in the order without a known price.", counted(plan.unpriced_orders, "string")));
    if (not_weighed > 0)
        sentences.push_back(fmt::format("{} without a price in the currency asked for could not be weighed.",
                                        counted(not_weighed, "kind")));
    sentences.push_back(fmt::format("This rests on {} of {}. {}", counted(plan.evidence.failures, "break"),
                                    counted(plan.evidence.observations, "string"), cautions::estimate));
    return sentences;
}

} // namespace harpkeep
