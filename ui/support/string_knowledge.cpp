// SPDX-License-Identifier: MIT
#include "ui/support/string_knowledge.hpp"

#include "db/records/harps.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "reason/life_text.hpp"

#include <fmt/format.h>

namespace harpkeep::ui {

Result<StringKnowledge> string_knowledge(const db::Ledger& ledger, Date today)
{
    auto harps = db::harps(ledger);
    if (!harps) return failure(harps.error());
    auto lives = db::all_string_lives(ledger);
    if (!lives) return failure(lives.error());
    auto stock = db::spare_stock(ledger);
    if (!stock) return failure(stock.error());
    auto movements = db::spare_movements(ledger);
    if (!movements) return failure(movements.error());
    StringKnowledge knowledge{.harps = *std::move(harps),
                              .lives = *std::move(lives),
                              .stock = *std::move(stock),
                              .movements = *std::move(movements),
                              .today = today};
    knowledge.history = string_history(knowledge.lives, knowledge.harps, today);
    return knowledge;
}

std::vector<StringInUse> strings_on(const StringKnowledge& knowledge, const std::string& harp_name)
{
    if (harp_name.empty()) return knowledge.history.in_use;
    std::vector<StringInUse> strings;
    for (const auto& string : knowledge.history.in_use)
        if (string.harp == harp_name) strings.push_back(string);
    return strings;
}

Result<LifeModel> learnt_lives(const StringKnowledge& knowledge, LifeGrouping grouping)
{
    const auto& observed = knowledge.history.observed;
    auto model = learn_lives(observed, grouping);
    if (model) return *std::move(model);
    stats::LifeEvidence evidence;
    for (const auto& group : grouped(observed, LifeGrouping::school))
        evidence = stats::evidence_of(group.lives);
    return failure(ErrorCode::unusable_input,
                   fmt::format("{}", fmt::join(silence_sentences(model.error(), evidence), " ")));
}

std::vector<ClusterReport> break_clusters(const StringKnowledge& knowledge)
{
    const auto& observed = knowledge.history.observed;
    std::vector<ClusterReport> reports;
    if (const auto model = learn_lives(observed))
        for (const auto key : {ClusterKey::place, ClusterKey::harp})
            reports.push_back(find_break_clusters(*model, observed, key));
    return reports;
}

SpareSituation spare_situation(const StringKnowledge& knowledge)
{
    return harpkeep::spare_situation(knowledge.history.in_use, knowledge.stock, knowledge.movements,
                                     knowledge.lives, knowledge.harps);
}

Result<RecordedStringing> recorded_stringing(const db::Ledger& ledger, const HarpRecord& harp, Hertz a4)
{
    const auto records = db::string_plan(ledger, harp.id);
    if (!records) return failure(records.error());
    std::vector<PlannedString> planned;
    for (const auto& record : *records) planned.push_back(record.details);
    return harpkeep::recorded_stringing(harp.details, planned, a4);
}

} // namespace harpkeep::ui
