// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Name and version of the way in which causes are told apart; raised when a change can move a figure.
inline constexpr std::string_view cause_method = "cause-1";

/// What makes step errors, from the whole harp down to one string.
enum class CauseKind {
    general, ///< every string of a step off the same way
    slope,   ///< error grows along the neck: cents from the lowest string to the highest
    bend,    ///< the middle of the neck against its ends, in cents
    pedal,   ///< all strings of one pedal
    string,  ///< one string
};

/// Size of one cause in one step.
struct CauseEffect {
    CauseKind kind = CauseKind::string;
    std::optional<Letter> pedal;      ///< for a pedal
    std::optional<StringPlace> place; ///< for a string
    std::optional<Step> step;         ///< nothing: flat to sharp, as the natural was not measured
    double cents = 0.0;               ///< positive: the step is too wide
    double lower_cents = 0.0;         ///< 95 % interval
    double upper_cents = 0.0;
    double probability = 0.0; ///< that it is there, against the best explanation without it
    int rests_on = 0;         ///< how many step errors show it
};

/// How the two steps of a pedal or a string go together.
enum class StepPattern {
    lower_only,   ///< flat to natural (or the only step)
    upper_only,   ///< natural to sharp
    both_wide,    ///< both steps too wide
    both_narrow,  ///< both steps too narrow
    natural_high, ///< first too wide, second too narrow: the natural itself is high
    natural_low,  ///< first too narrow, second too wide
    unresolved,   ///< flat to sharp is off; which step cannot be told without the natural
};

/// A cause that is there with enough certainty and size to be reported.
struct Fault {
    CauseKind kind = CauseKind::string;
    std::optional<Letter> pedal;
    std::optional<StringPlace> place;
    StepPattern pattern = StepPattern::lower_only;
    std::vector<CauseEffect> effects; ///< one or two steps
    double greatest_cents = 0.0;      ///< the effect farthest from zero, with its sign
};

/// From when on a cause is reported. All are this project's own choice: no open source states them.
struct CauseSettings {
    double certainty = 0.95;             ///< least probability of a fault
    double suspicion = 0.5;              ///< least probability of a suspicion
    double least_pedal_cents = 1.5;      ///< smaller effects of a pedal are no fault
    double least_string_cents = 2.5;     ///< smaller effects of one string are no fault
    double least_along_neck_cents = 2.0; ///< smaller slopes (end to end), bends and general offsets are none
};

struct CauseReport {
    double scatter_cents = 0.0;      ///< of single steps, once the causes are taken out
    double degrees_of_freedom = 0.0; ///< of the scatter
    std::vector<Fault> faults;       ///< greatest first
    std::vector<Fault> suspected;    ///< more likely than not, yet not certain enough
    std::vector<CauseEffect>
        effects; ///< every general, slope, bend and pedal effect, and the strings taken in
    int steps_used = 0;
    std::vector<Letter> unclear_pedals; ///< too few strings measured to tell the pedal from its strings
};

/// Tells what is behind the step errors of one check: neck, pedals, single strings.
///
/// Given      the errors of one check; several of one step are not combined here
/// Returns    nothing when fewer than `least_steps_for_cause` steps were measured
/// Notes      step error = general + slope + bend (each step its own) + pedal (letter and step) + string +
///            scatter. Pedals and strings are there or not (spike and slab), so that three pedals that are
///            off do not push the blame on the other four, and a bad string does not pull its pedal. Steps of
///            one string share the natural: their covariance is taken from the whole step when it is given.
///            A lever harp has no pedals, a single-action harp has the lower step only.
/// Accuracy   docs/methods/cause.md; measured by tests/benchmarks/cause_benchmark.cpp
[[nodiscard]] std::optional<CauseReport> find_causes(const HarpLayout& layout,
                                                     std::span<const StepError> steps,
                                                     std::span<const WholeStepError> whole_steps,
                                                     const CauseSettings& settings = {});

/// Fewer step errors than this say nothing about causes (our choice: two strings of each pedal).
inline constexpr int least_steps_for_cause = 14;

/// Fewer strings of a pedal than this cannot tell the pedal from its strings (our choice).
inline constexpr int least_strings_of_pedal = 3;

} // namespace harpkeep
