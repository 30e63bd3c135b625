// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "harp/key_setting.hpp"
#include "harp/temperament.hpp"
#include "measure/reading.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A pedal setting that a piece uses, and how much it counts (bars, minutes, any unit).
struct UsedSetting {
    PedalSetting setting;
    double weight = 1.0;
};

enum class TuneGoal {
    least_greatest,   ///< the worst position of each string as good as can be
    least_mean_square ///< weighted by use: what sounds most is best
};

struct TuneAroundRequest {
    std::vector<UsedSetting> settings;
    TuneGoal goal = TuneGoal::least_greatest;
    Temperament temperament = all_temperaments().front();
    double a4_hz = 440.0;
};

/// One position that the piece uses.
struct UsedPosition {
    Position position = Position::flat;
    int alteration = 0;
    double weight = 0.0;
    std::optional<double>
        before_cents; ///< off the temperament's pitch, open string tuned to it; nothing: not measured
    std::optional<double> after_cents;
    double before_uncertainty_cents = 0.0; ///< standard
    double after_uncertainty_cents = 0.0;
};

/// Where to tune one open string.
struct TunedString {
    StringPlace place;
    Position position = Position::flat; ///< to tune it in: the open one
    int alteration = -1;                ///< that it then sounds
    double target_hz = 0.0;
    double offset_cents = 0.0; ///< from equal temperament at this A4
    double moved_cents = 0.0;  ///< from where it would be tuned without going around anything
    double moved_uncertainty_cents = 0.0;
    bool by_hand = false; ///< no discs: it has to be tuned to the note that the piece needs
    bool has_discs = true;
    std::vector<UsedPosition> used;
};

/// The greatest or the typical error, with the uncertainty of measuring.
struct TuningFigure {
    double cents = 0.0;
    double uncertainty_cents = 0.0;
};

/// A note that the piece asks of a string and that it cannot give.
struct ImpossibleNote {
    StringPlace place;
    int alteration = 0;
};

struct TuneAroundResult {
    std::vector<TunedString> strings;             ///< from the lowest on
    TuningFigure greatest_before, greatest_after; ///< size of the error farthest off
    std::optional<StringPlace> worst_before, worst_after;
    TuningFigure typical_before, typical_after; ///< root of the weighted mean square
    std::vector<ImpossibleNote> impossible;
    int used_positions = 0;    ///< of strings with discs
    int unknown_positions = 0; ///< used, but never measured: left out of the figures
};

/// The pitch of each open string that makes the positions a piece uses err least.
///
/// Given      at least one setting, weights > 0; step errors of one check
/// Returns    exact optimum: strings do not depend on each other, and for each the best offset is the middle
///            between its extreme positions (least greatest) or their weighted mean (least mean square)
/// Notes      A string used in one position can be tuned pure. A string without discs is tuned to the note
/// with
///            the greatest weight; its other notes are impossible.
[[nodiscard]] TuneAroundResult tune_around(const HarpLayout& layout, std::span<const StepError> steps,
                                           std::span<const WholeStepError> whole_steps,
                                           const TuneAroundRequest& request);

} // namespace harpkeep
