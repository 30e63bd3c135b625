// SPDX-License-Identifier: MIT
#pragma once

#include "reason/observed_string.hpp"
#include "stats/kaplan_meier.hpp"
#include "stats/log_rank.hpp"
#include "stats/pooled_weibull.hpp"
#include "stats/weibull.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Name and version of the way in which lives are estimated; raised when a change can move a figure.
inline constexpr std::string_view life_method = "lives-1";

struct LifeStudySettings {
    LifeGrouping grouping = LifeGrouping::octave_and_material;
    double confidence = 0.95;
    stats::PoolingSettings pooling;
    /// Fewer breaks than this and a group gets no fit of its own: its shape would be anybody's guess.
    int least_breaks_for_own_fit = 5;
};

/// A Weibull fitted to one group alone, with profile-likelihood limits.
struct OwnFit {
    stats::WeibullFit fit; ///< scale in days
    stats::ConfidenceLimits shape;
    stats::ConfidenceLimits median_days;
    /// Akaike's criterion of the lognormal less that of the Weibull: above 2 the Weibull fits clearly better,
    /// below -2 the lognormal. Nothing when no lognormal could be fitted.
    std::optional<double> lognormal_excess;
};

/// What the log says about one group.
struct GroupLife {
    std::string name;
    stats::LifeEvidence evidence; ///< exposure in string-days
    stats::SurvivalCurve curve;
    std::optional<stats::LifeQuantile> observed_median_days; ///< from the curve, without any assumed shape
    std::optional<OwnFit> own;
    std::optional<stats::Estimate> median_days;    ///< leaning on the other groups as far as it must
    std::optional<stats::Estimate> breaks_in_year; ///< chance that a new string breaks in its first year
    /// Without any break: breaks for each string-year that 95 of 100 such quiet times would still rule out.
    std::optional<double> highest_breaks_per_year;
};

/// How much more must be seen before figures are good to a factor.
struct EvidenceNeed {
    int breaks_seen = 0;
    int breaks_wanted = 0;
    std::optional<double> years_to_wait; ///< at the pace seen so far; nothing when nothing broke
};

/// Lives of all strings of a ledger.
struct LifeStudy {
    LifeGrouping grouping = LifeGrouping::octave_and_material;
    std::vector<GroupLife> groups; ///< by name
    stats::LifeEvidence total;
    std::optional<stats::LogRank> difference; ///< do the groups live equally long?
    std::optional<stats::Estimate> shape;     ///< common shape: 1 accident, above 1 wear
    std::optional<stats::NoFit> silent;       ///< why nothing was pooled
};

/// Studies how long strings last.
///
/// Notes      Pooling and its prior: stats/pooled_weibull.hpp. A group's own fit stands beside the pooled
/// figures;
///            where both disagree, the group is unlike the rest or one of the two has little to go by.
/// Reference  docs/methods/life-study.md
[[nodiscard]] LifeStudy study_lives(std::span<const ObservedString> strings,
                                    const LifeStudySettings& settings = {});

/// How many breaks it takes until a rate is known within a factor, two-sided at 95 %: (1.96 / log factor)^2,
/// as a count of d has a relative uncertainty of 1 / sqrt(d).
///
/// Given    factor > 1; calendar_years over which the evidence came in, > 0
/// Returns  8 breaks for a factor of 2, 24 for 1.5
[[nodiscard]] EvidenceNeed evidence_needed(int breaks_seen, double calendar_years, double factor = 2.0);

} // namespace harpkeep
