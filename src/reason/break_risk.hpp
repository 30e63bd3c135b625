// SPDX-License-Identifier: MIT
#pragma once

#include "reason/observed_string.hpp"
#include "stats/pooled_weibull.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// A string that is on a harp now.
struct StringInUse {
    std::string harp;
    StringPlace place;
    std::string material;
    /// Days since it was put on; nothing when nobody knows. Then `watched_days` is the least it can be.
    std::optional<double> age_days;
    double watched_days = 0.0;
    std::string kind; ///< strings of one kind can replace one another: "3C gut 0.91 mm"

    [[nodiscard]] double least_age_days() const { return age_days.value_or(watched_days); }
};

/// What was learnt from all observed strings, ready to be asked about strings in use.
struct LifeModel {
    LifeGrouping grouping = LifeGrouping::octave_and_material;
    std::vector<std::string> groups; ///< names, in the order of `lives`
    stats::PooledLives lives;        ///< in days

    /// Index of the string's group, or that of a group nothing is known about.
    [[nodiscard]] std::size_t group_of(const StringInUse& string) const;
};

/// Learns from the observed strings; nothing can be learnt while none has broken.
[[nodiscard]] stats::Fitted<LifeModel> learn_lives(std::span<const ObservedString> strings,
                                                   LifeGrouping grouping = LifeGrouping::octave_and_material,
                                                   const stats::PoolingSettings& settings = {});

/// Chance that one string breaks within the asked time, and what it rests on.
struct BreakRisk {
    StringInUse string;
    stats::Estimate chance;
    stats::Estimate chance_if_new; ///< had it been put on today
    std::string group;
    std::optional<stats::LifeEvidence> group_evidence; ///< nothing: no string of this group was ever watched
    bool age_unknown = false; ///< the least possible age was used: the true chance is higher if strings wear
};

/// Risks of a set of strings over one time.
struct RiskReport {
    double within_days = 0.0;
    std::vector<BreakRisk> strings;  ///< highest chance first
    stats::Estimate any_break;       ///< that at least one of them breaks
    stats::Estimate expected_breaks; ///< how many of the strings now on break once or more
    stats::LifeEvidence evidence;    ///< behind the whole model
};

/// Chance for each string that it breaks within `within_days` > 0 from now.
///
/// Notes  Limits hold the uncertainty of what was learnt, not the accident of a single string: a chance of 10
/// %
///        known exactly still comes true one time in ten. Strings are independent given what is learnt; what
///        is unknown about their group they share.
[[nodiscard]] RiskReport break_risks(const LifeModel& model, std::span<const StringInUse> strings,
                                     double within_days, double confidence = 0.95);

} // namespace harpkeep
