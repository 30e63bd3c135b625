// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "live/check_plan.hpp"
#include "measure/reading.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <vector>

namespace harpkeep {

/// A frequency measured before, with its string and position.
struct KnownPitch {
    CheckTarget target;
    Hertz frequency;
};

/// How a string fits into what was expected, from the most to the least likely.
enum class Fit {
    awaited,        ///< one of the strings that come next
    pending,        ///< asked for in this setting, but out of order
    again,          ///< the last one accepted, once more
    earlier,        ///< another one accepted before in this setting
    next_part,      ///< where the next part begins, after this one was gone through to its end
    not_asked,      ///< can sound in this setting, but is not asked for
    other_position, ///< an awaited string in a position that the setting forbids
    far_position,   ///< any other string in a position that the setting forbids
};

/// One string and position that a pitch may come from.
struct StringCandidate {
    CheckTarget target;
    Fit fit = Fit::not_asked;
    bool measured = true;  ///< false: an octave below what the engine heard, which misses a faint fundamental
    std::size_t rival = 0; ///< 0: from the likeliest pitch of the sound; else 1 + index into its rivals
    Cents deviation;       ///< from where that string was predicted
    double pitch_cost = 0.0; ///< the part of the cost that this deviation makes
    double cost = 0.0;       ///< minus log of its probability, up to a constant: lower is likelier
};

/// What is known when a pitch is heard.
struct LocatorKnowledge {
    const HarpLayout* layout = nullptr;
    Hertz a4{440.0};
    LetterPositions setting;
    std::vector<CheckTarget> awaited;
    std::vector<CheckTarget> pending;
    std::optional<CheckTarget> last;
    std::vector<CheckTarget> done;
    std::vector<KnownPitch> known;   ///< of this check, any setting
    bool setting_in_doubt = false;   ///< the last plucks sounded in positions that it forbids
    std::array<bool, 7> confirmed{}; ///< letters whose pedal was heard in the position of this setting
    std::array<bool, 7> suspected{}; ///< letters whose pedal was heard in another
    /// After this part was gone through, with strings left out: those with which the next one may begin.
    std::vector<CheckTarget> next_part;
};

/// Ranks the strings and positions that a sound may come from.
///
/// Given      pluck  as measured, with the rivals of its pitch
/// Returns    all within 70 cents of their prediction, the likeliest first; empty when it fits no string
/// Notes      A string is predicted from its own reading in the same position, else in another position, else
///            from equal temperament shifted by what the harp as a whole is off; each with a narrow and a
///            wide part, for a string may have slipped. To this come the odds of each Fit. F flat and E
///            natural sound the same: only the order and what is known of each pedal tell them apart, and
///            when these do not, two candidates stay close and nothing should be accepted.
/// Reference  Bayes' rule; the widths and odds are the project's own choice
[[nodiscard]] std::vector<StringCandidate> locate_string(const PluckMeasurement& pluck,
                                                         const LocatorKnowledge& knowledge);

/// The sound as measured at the pitch that a candidate stands for, without rivals.
///
/// Given      candidate  measured
[[nodiscard]] PluckMeasurement at_pitch_of(const PluckMeasurement& pluck, const StringCandidate& candidate);

/// Whether the best candidate is so much likelier than the next one that its reading may be kept.
///
/// Given      setting_in_doubt  as in the knowledge: then a second candidate in a forbidden position weighs
/// more
///            asked_before  how often just these two were told apart in vain: from the second time on the
///                      player has looked at the pedal, and the string that is awaited is believed
/// Notes      A reading that would replace a kept one must be clearer than a new one, and near to it or to
/// its
///            turn: talk may hit the pitch of any string.
[[nodiscard]] bool is_clear(const std::vector<StringCandidate>& candidates, bool setting_in_doubt,
                            int asked_before);

/// Median deviation of the known pitches from equal temperament; 0 below three of them.
[[nodiscard]] Cents whole_harp_offset(const HarpLayout& layout, const std::vector<KnownPitch>& known,
                                      Hertz a4);

} // namespace harpkeep
