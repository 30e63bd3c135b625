// SPDX-License-Identifier: MIT
#pragma once

#include "live/pitch_filter.hpp"
#include "live/tuning_target.hpp"
#include "measure/pluck_event.hpp"

#include <optional>
#include <vector>

namespace harpkeep {

struct TuningAidSettings {
    Cents tolerance{1.0};     ///< a string nearer to its target is in tune
    Cents largest_doubt{0.5}; ///< standard uncertainty with which that must be known
    Seconds held{0.6};        ///< how long a sounding string must stay in tune to count as done
    Cents sank_by{1.5};       ///< a string that fell by more since it was done has sunk
};

/// What the aid remembers of one string; plain values.
struct StringTuning {
    StringPlace place;
    std::optional<Cents> deviation; ///< when it was heard last
    Cents uncertainty;
    bool done = false;              ///< in tune in this pass
    std::optional<Cents> when_done; ///< its deviation when it was done, this pass or the one before
    std::optional<Cents> sank;      ///< by how much it had fallen when first heard in this pass
};

/// What one event led to.
struct TuningOutcome {
    std::optional<StringPlace> done; ///< this string has just become in tune
    std::optional<StringPlace> sunk; ///< this string, done in the pass before, is found to have sunk
    bool pass_complete = false;
};

struct TuningView {
    int pass = 1;
    std::optional<TuningTarget> target; ///< the string that sounds, or was chosen
    bool chosen = false;                ///< by hand
    std::optional<SteadyPitch> pitch;   ///< while it sounds and shortly after
    bool sounding = false;
    std::size_t done = 0;
    const std::vector<StringTuning>* strings = nullptr; ///< lowest first, of the aid itself
};

/// Helps to tune string by string: knows which one sounds, how far it is, which are done, which have sunk.
///
/// Notes  It hears plucks from the engine and, between them, pitches from a PitchFollower, so that a pin can
/// be
///        turned while the string sounds. Two passes are usual, for strings settle: the second begins when
///        all are done, or by hand.
class TuningAid {
  public:
    /// Given  targets  lowest first, not empty
    explicit TuningAid(std::vector<TuningTarget> targets, const TuningAidSettings& settings = {});

    /// A pluck decides which string sounds: the chosen one, else the nearest target within a semitone.
    TuningOutcome handle(const PluckEvent& event);
    /// The pitch of the sounding string at this moment.
    TuningOutcome follow(Seconds time, Hertz frequency, Cents uncertainty);

    /// Keeps to one string whatever sounds (a new string may be far off); nothing: back to the nearest.
    void choose(std::optional<StringPlace> place);
    /// Begins the next pass: none is done, the deviations of the last one are remembered.
    void begin_next_pass();

    [[nodiscard]] TuningView view() const;
    [[nodiscard]] const std::vector<StringTuning>& strings() const { return strings_; }
    [[nodiscard]] const std::vector<TuningTarget>& targets() const { return targets_; }

  private:
    [[nodiscard]] std::optional<std::size_t> nearest_to(Hertz frequency) const;
    void settle_on_nearest(Hertz frequency);
    TuningOutcome hear(Seconds time, Hertz frequency, Cents uncertainty);
    TuningOutcome note(std::size_t index, Seconds time, Cents deviation, Cents uncertainty);
    void note_first_hearing(StringTuning& string, Cents deviation, TuningOutcome& outcome);

    std::vector<TuningTarget> targets_;
    std::vector<StringTuning> strings_;
    TuningAidSettings settings_;
    PitchFilter filter_;
    int pass_ = 1;
    std::optional<std::size_t> chosen_;
    std::optional<std::size_t> current_;
    int sounding_pluck_ = -1;
    bool sounding_ = false;
    std::optional<SteadyPitch> pitch_;
    std::optional<double> followed_s_; ///< when follow() was last called
    std::optional<double> in_tune_since_s_;
};

} // namespace harpkeep
