// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "reason/conformity.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// What can be the matter with a string or its discs besides the size of a step.
enum class ConditionKind {
    settling,     ///< put on lately: its pitch still sinks
    no_return,    ///< the open string does not come back to its pitch after the pedal was down
    false_string, ///< partials irregular or two pitches beating in every position
    poor_ring,    ///< rings short in one position only: the grip of that disc
};

/// How many days a string has been on at the time of the check.
struct StringAge {
    StringPlace place;
    int days = 0;
};

/// One finding about one string.
struct StringCondition {
    ConditionKind kind = ConditionKind::settling;
    StringPlace place;
    std::optional<Position> position;       ///< poor_ring: where it rings short
    Conformity certainty = Conformity::out; ///< no_return: out, or not proven
    /// no_return: cents that the open string came back too high. poor_ring: share of the ring to be expected,
    /// 0..1. false_string: chance that such signs meet on one string of this harp by accident.
    /// settling: days since it was put on.
    double value = 0.0;
    double lower = 0.0; ///< 95 % interval of no_return and poor_ring
    double upper = 0.0;
    int rests_on = 0;                      ///< readings
    int positions_affected = 0;            ///< false_string
    std::optional<double> beat_rate_hz;    ///< false_string, when it beats
    std::optional<double> irregular_cents; ///< false_string: how far partials lie from one string's series
};

/// From when on a condition is reported; all are this project's own choice save where noted.
struct ConditionSettings {
    int settling_days = 14; ///< common practice: about two weeks
    ToleranceBand return_cents{-3.0, 3.0};
    /// In octaves 0 and 1 a string may come back +2 to +5 cents without a fault ("Rules and regulations", a
    /// page title).
    ToleranceBand return_cents_in_treble{-3.0, 5.0};
    DecisionRule rule;
    double least_irregular_cents = 3.0;
    double most_accident = 0.05;  ///< chance of a false alarm on the whole harp, for false strings
    double ring_share = 0.6;      ///< rings shorter than this share of what its neighbours let expect
    double ring_deviations = 4.0; ///< and that many robust standard deviations
};

/// Root of the weighted mean square distance of the partials from one stiff string's series.
///
/// Returns    nothing with fewer than four partials
/// Notes      The series is that of the pluck itself: n f1 sqrt((1 + B n^2) / (1 + B)).
[[nodiscard]] std::optional<double> partial_irregularity_cents(const PluckMeasurement& pluck);

/// The readings of a check in the order in which they sounded, looked at string by string.
///
/// Given      all readings, doubtful ones too; ages of those strings of which they are known
/// Returns    findings by string from the lowest to the highest, settling first: it excuses the others
/// Notes      Return: open string before and after a higher position, less the harp's median change (the room
///            warmed, the player tuned). False: signs in every measured position, beyond what this harp's
///            share of such readings makes likely by accident. Ring: decay of the partials that both
///            positions show, against the other positions and the nearest strings.
[[nodiscard]] std::vector<StringCondition> find_string_conditions(const HarpLayout& layout,
                                                                  std::span<const Reading> readings,
                                                                  std::span<const StringAge> ages,
                                                                  const ConditionSettings& settings = {});

} // namespace harpkeep
