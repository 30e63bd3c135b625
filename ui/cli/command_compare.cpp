// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "db/records/visits.hpp"
#include "reason/drift_text.hpp"
#include "reason/words.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/visit_checks.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct CompareWords {
    std::string harp;
    std::string visit;
    std::string before;
    std::string after;
};

/// Two checks to compare, and what they are about.
struct ChosenPair {
    ui::CheckPair checks;
    std::string about; ///< "the visit of 2026-03-10"
};

Result<ChosenPair> pair_about(const VisitRecord& visit)
{
    const auto checks = ui::checks_around(visit);
    if (!checks) return failure(checks.error());
    return ChosenPair{*checks, "the visit of " + iso_date(visit.visit.visited_on)};
}

Result<ChosenPair> chosen_pair(const db::Ledger& ledger, const HarpRecord& harp, const CompareWords& words)
{
    if (words.before.empty() != words.after.empty())
        return failure(ErrorCode::invalid_argument, "give both --before and --after, or neither");
    if (!words.before.empty()) {
        const auto before = thing_of_kind(ledger, words.before, "check");
        if (!before) return failure(before.error());
        const auto after = thing_of_kind(ledger, words.after, "check");
        if (!after) return failure(after.error());
        return ChosenPair{{*before, *after}, "two checks"};
    }
    if (!words.visit.empty()) {
        const auto id = thing_of_kind(ledger, words.visit, "visit");
        if (!id) return failure(id.error());
        const auto visit = db::visit_with_id(ledger, *id);
        if (!visit) return failure(visit.error());
        return pair_about(*visit);
    }
    const auto visits = db::visits_of(ledger, harp.id);
    if (!visits) return failure(visits.error());
    if (visits->empty())
        return failure(
            ErrorCode::not_found,
            fmt::format("{} has no visit yet; name two checks with --before and --after", harp.details.name));
    return pair_about(visits->back());
}

Result<void> compare(const Common& common, const CompareWords& words)
{
    const auto opened = open_harp(common, db::Access::read, words.harp);
    if (!opened) return failure(opened.error());
    const auto& harp = opened->harp;
    const auto pair = chosen_pair(opened->ledger, harp, words);
    if (!pair) return failure(pair.error());
    const auto before = ui::harp_knowledge(opened->ledger, harp, pair->checks.before);
    if (!before) return failure(before.error());
    const auto after = db::check(opened->ledger, pair->checks.after);
    if (!after) return failure(after.error());
    if (after->header.harp_id != harp.id)
        return failure(ErrorCode::invalid_argument,
                       "that check belongs to another harp than " + harp.details.name);
    const auto settings = ui::comparison_settings(*before);
    const auto comparison =
        compare_visit(before->check->result.steps, after->result.steps, before->tolerances, settings);
    const auto sentences = visit_sentences(comparison, harp.details.layout.kind);
    if (common.json) {
        Json document{{"harp", harp.details.name},
                      {"before", iso_time(before->check->header.taken)},
                      {"after", iso_time(after->header.taken)},
                      {"check_scatter_cents", settings.check_scatter_cents}};
        document.update(json_of(comparison));
        document["text"] = sentences;
        print_json(document);
        return {};
    }
    print_line(fmt::format("{}, about {}: {} against {}", harp.details.name, pair->about,
                           short_time(before->check->header.taken), short_time(after->header.taken)));
    print_sentences(sentences);
    print_line(interval_remark);
    return {};
}

} // namespace

void add_command_compare(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<CompareWords>(app, common, work, "compare",
                                             "what a visit improved and what it did not", compare);
    add_harp_option(*verb.app, verb.words->harp);
    verb.app->add_option("--visit", verb.words->visit, "handle of the visit (default: the last one)");
    verb.app->add_option("--before", verb.words->before, "handle of a check, instead of a visit");
    verb.app->add_option("--after", verb.words->after, "handle of the check to compare with it");
}

} // namespace harpkeep::cli
