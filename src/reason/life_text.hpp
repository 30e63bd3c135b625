// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_clusters.hpp"
#include "reason/break_risk.hpp"
#include "reason/life_study.hpp"
#include "reason/replacement.hpp"
#include "reason/spare_plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

// What was found about lives, in sentences for people. Every figure stands with its limits and what it rests
// on; where the data say too little, the sentence says so and what would suffice.

/// "octave 3, gut: half of the strings break by 23 months (17 to 34 months) ..."
[[nodiscard]] std::string group_sentence(const GroupLife& group);

/// What the group says by itself: the Kaplan-Meier median, and its own Weibull with profile-likelihood limits
/// where it has breaks enough. Nothing when it has neither.
[[nodiscard]] std::optional<std::string> group_alone_sentence(const GroupLife& group);

/// The whole study: one sentence for each group, then wear or accident, differences, and what is missing.
///
/// Given  calendar_years over which the log was kept, > 0
[[nodiscard]] std::vector<std::string> study_sentences(const LifeStudy& study, double calendar_years);

/// "Heron 1C: 31 % (22 to 41 %) to break within 60 days; put on 14 months ago; from 23 breaks of ..."
[[nodiscard]] std::string risk_sentence(const BreakRisk& risk, double within_days);
/// All of them together.
[[nodiscard]] std::vector<std::string> risk_summary_sentences(const RiskReport& report);

[[nodiscard]] std::vector<std::string> replacement_sentences(const ReplacementPlan& plan);

/// Flagged clusters, then those that stand out without proof.
[[nodiscard]] std::vector<std::string> cluster_sentences(const ClusterReport& report);

[[nodiscard]] std::vector<std::string> spare_sentences(const SparePlan& plan);

/// What to say when nothing can be learnt yet: why, what the quiet time still tells, what would suffice.
[[nodiscard]] std::vector<std::string> silence_sentences(stats::NoFit reason,
                                                         const stats::LifeEvidence& evidence);

} // namespace harpkeep
