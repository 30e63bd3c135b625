// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"

#include "reason/estimate_text.hpp"
#include "reason/string_cautions.hpp"
#include "stats/exponential.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

namespace harpkeep {

namespace {

std::string shape_sentence(const stats::Estimate& shape)
{
    const auto figures =
        fmt::format("shape {:.2f} ({:.2f} to {:.2f})", shape.value, shape.limits.lower, shape.limits.upper);
    if (shape.limits.lower > 1.0)
        return fmt::format("Strings wear: an old one is likelier to break than a new one, {}.", figures);
    if (shape.limits.upper < 1.0)
        return fmt::format(
            "New strings break more often than those that lasted, {}: look at how they are put on.", figures);
    return fmt::format("Whether strings wear or break by accident cannot be told yet, {}.", figures);
}

} // namespace

std::string group_sentence(const GroupLife& group)
{
    const auto evidence = evidence_text(group.evidence);
    if (group.median_days && group.evidence.failures > 0)
        return fmt::format("{}: half break by {} ({}), {} of new ones within a year; {}.", group.name,
                           span_text(group.median_days->value),
                           span_range_text(group.median_days->limits.lower, group.median_days->limits.upper),
                           chance_text(*group.breaks_in_year), evidence);
    const auto bound = group.highest_breaks_per_year
                           ? fmt::format(", so hardly more than {} in 100 string-years",
                                         count_text(100.0 * *group.highest_breaks_per_year))
                           : std::string{};
    return fmt::format("{}: none has broken{}; {}.", group.name, bound, evidence);
}

std::optional<std::string> group_alone_sentence(const GroupLife& group)
{
    std::vector<std::string> parts;
    if (const auto& median = group.observed_median_days) {
        auto limits = median->lower ? fmt::format("at least {}", span_text(*median->lower)) : std::string{};
        if (median->lower && median->upper) limits = span_range_text(*median->lower, *median->upper);
        parts.push_back(fmt::format("as watched half broke by {}{} (Kaplan-Meier)", span_text(median->time),
                                    limits.empty() ? "" : ", 95 %: " + limits));
    }
    if (const auto& own = group.own)
        parts.push_back(
            fmt::format("by itself its Weibull has shape {:.2f} ({:.2f} to {:.2f}) and half break "
                        "by {} ({}), limits by profile likelihood",
                        own->fit.life.shape, own->shape.lower, own->shape.upper,
                        span_text(stats::weibull_quantile(own->fit.life, 0.5)),
                        span_range_text(own->median_days.lower, own->median_days.upper)));
    if (parts.empty()) return std::nullopt;
    return fmt::format("  {} alone: {}.", group.name, fmt::join(parts, "; "));
}

std::vector<std::string> study_sentences(const LifeStudy& study, double calendar_years)
{
    if (study.silent) return silence_sentences(*study.silent, study.total);
    std::vector<std::string> sentences;
    for (const auto& group : study.groups) {
        sentences.push_back(group_sentence(group));
        if (auto alone = group_alone_sentence(group)) sentences.push_back(*std::move(alone));
    }
    sentences.push_back(shape_sentence(*study.shape));
    if (study.difference && study.difference->p_value < 0.05)
        sentences.push_back(
            fmt::format("The groups live unequally long: chance alone would do as much in {} of cases.",
                        probability_text(study.difference->p_value)));
    const auto need = evidence_needed(study.total.failures, calendar_years);
    if (need.breaks_seen < need.breaks_wanted)
        sentences.push_back(
            fmt::format("{} so far: about {} are needed to know a rate within a factor of two, {} at "
                        "this pace.",
                        counted(need.breaks_seen, "break"), need.breaks_wanted,
                        span_text(need.years_to_wait.value_or(0.0) * days_per_year)));
    sentences.push_back(std::string{cautions::estimate});
    return sentences;
}

std::string risk_sentence(const BreakRisk& risk, double within_days)
{
    const auto age = risk.age_unknown
                         ? fmt::format("age unknown, watched for {}", span_text(risk.string.watched_days))
                         : fmt::format("put on {} ago", span_text(*risk.string.age_days));
    const auto basis =
        risk.group_evidence
            ? fmt::format("{}: {}", risk.group, evidence_text(*risk.group_evidence))
            : fmt::format("no string of {} was watched yet, so judged by all others", risk.group);
    return fmt::format("{} {}: {} to break within {}; {}; {}.", risk.string.harp,
                       harp_name(risk.string.place), chance_text(risk.chance), span_text(within_days), age,
                       basis);
}

std::vector<std::string> risk_summary_sentences(const RiskReport& report)
{
    return {fmt::format("Within {}: {} that at least one of {} breaks, {} to be expected; from {}.",
                        span_text(report.within_days), chance_text(report.any_break),
                        counted(static_cast<int>(report.strings.size()), "string"),
                        expected_count_text(report.expected_breaks), evidence_text(report.evidence)),
            std::string{cautions::estimate}};
}

std::vector<std::string> silence_sentences(stats::NoFit reason, const stats::LifeEvidence& evidence)
{
    std::vector<std::string> sentences;
    sentences.push_back(fmt::format("Too little to reckon with: {} ({}).", stats::no_fit_reason(reason),
                                    evidence_text(evidence)));
    if (evidence.failures == 0 && evidence.exposure > 0.0) {
        const double rate = days_per_year * stats::highest_rate_without_failures(evidence.exposure);
        sentences.push_back(fmt::format(
            "So quiet a time makes more than {:.2g} breaks for each string and year unlikely.", rate));
    }
    sentences.push_back(
        fmt::format("About {} noted with their dates would tell a rate within a factor of two.",
                    counted(evidence_needed(evidence.failures, 1.0).breaks_wanted, "break")));
    return sentences;
}

} // namespace harpkeep
