// SPDX-License-Identifier: MIT
#pragma once

#include "live/check_notice.hpp"
#include "live/check_plan.hpp"
#include "live/harp_drift.hpp"
#include "live/string_locator.hpp"
#include "measure/pluck_event.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace harpkeep {

struct GuidedCheckSettings {
    Hertz a4{440.0};
    /// Octaves 2 to 7: 0.3 that another pluck may lessen, and as much of a second tone that may hide in the
    /// noise.
    Cents good_uncertainty{0.45};
    Cents good_uncertainty_top{1.0}; ///< octaves 0 and 1, whose tones are short
    int most_tries = 3;              ///< then a doubtful reading is kept with its doubt
    int file_index = 0;              ///< written into the readings
};

/// A reading that counts, or counted until a later one contradicted it or it was taken back. Two that agree
/// both count.
struct KeptReading {
    std::size_t station = 0;
    Reading reading;
    bool superseded = false;
};

/// A string that the player will not sound in this check.
struct GivenUpTarget {
    std::size_t station = 0;
    CheckTarget target;

    bool operator==(const GivenUpTarget&) const = default;
};

/// All that is needed to go on another day; plain values, to be stored and read back.
struct GuidedCheckState {
    CheckPlanRequest request;
    std::size_t station = 0;
    std::vector<KeptReading> readings; ///< in the order in which they were kept
    std::vector<GivenUpTarget> given_up;
};

/// What an event led to.
struct GuidedCheckOutcome {
    std::vector<KeptReading> kept; ///< new readings, to be stored at once
    std::vector<CheckNotice> notices;
};

/// What is heard of the pluck that sounds now.
struct HeardNow {
    CheckTarget target;
    Cents deviation; ///< of the open pitch: from equal temperament; else of the step: from 100 or 200 cents
    bool is_step = false;
    Cents uncertainty;
    bool good = false;
};

/// All that a screen shows.
struct GuidedCheckView {
    std::size_t station = 0;
    std::size_t station_count = 0;
    bool closing = false;
    LetterPositions setting;
    std::vector<Letter> to_move; ///< letters that stand otherwise than in the part before
    std::optional<StringPlace> single_lever;
    std::optional<CheckTarget> next;
    std::optional<HeardNow> heard;
    std::vector<CheckTarget> passed_over;
    std::size_t done = 0;
    std::size_t total = 0;
    std::optional<Seconds> time_left;
    std::optional<HarpDrift> drift; ///< once the closing strings are sounded
    std::optional<CheckNotice> notice;
    bool paused = false;
    bool complete = false;
};

/// A check that follows the player: it says which setting to make, recognises what is plucked, keeps what is
/// good and goes on by itself. It has no clock, no sound and no screen; events carry their time.
///
/// Notes     Plucks may come in any order within a part. Nothing is kept when a pitch fits two strings about
///           equally well. A part that is left with strings missing comes again after the last one. A wrong
///           string plucked with its pedal wrong as well can sound exactly what was asked for (F flat for E
///           natural): nothing in the sound tells.
/// Accuracy  2,000 simulated checks with skipped and doubled strings, forgotten pedals and settings, one at a
///           time: no reading under a wrong string, 159 plucks for 142 readings (40 of them in
///           tests/src/live/guided_check_test.cpp)
class GuidedCheck {
  public:
    [[nodiscard]] static Result<GuidedCheck> begin(HarpLayout layout, const CheckPlanRequest& request,
                                                   const GuidedCheckSettings& settings = {});
    /// Goes on where `state` was left; a reading or a station that its plan does not know is an error.
    [[nodiscard]] static Result<GuidedCheck> resume(HarpLayout layout, GuidedCheckState state,
                                                    const GuidedCheckSettings& settings = {});

    GuidedCheckOutcome handle(const PluckEvent& event);

    /// Leaves this part for the end; when it is its turn again there, what is missing is given up.
    GuidedCheckOutcome leave_station();
    /// Takes the last kept reading back, so that its string is asked for again; returns it as superseded.
    std::optional<KeptReading> take_back();
    /// Readings from now on belong to this file of the check.
    void count_file(int file_index) { settings_.file_index = file_index; }
    /// While paused, what sounds is not looked at.
    void pause(bool paused);

    [[nodiscard]] GuidedCheckView view() const;
    [[nodiscard]] const GuidedCheckState& state() const { return state_; }
    [[nodiscard]] const CheckPlan& plan() const { return plan_; }
    [[nodiscard]] const HarpLayout& layout() const { return layout_; }
    [[nodiscard]] Hertz a4() const { return settings_.a4; }
    [[nodiscard]] bool complete() const { return complete_; }

  private:
    /// A target that a pluck stands for, kept or about to be.
    struct Claim {
        int pluck = 0;
        CheckTarget target;
    };

    GuidedCheck(HarpLayout layout, CheckPlan plan, GuidedCheckState state,
                const GuidedCheckSettings& settings);
    void on(const PluckBegan& event, GuidedCheckOutcome& outcome);
    void on(const PluckEstimated& event, GuidedCheckOutcome& outcome);
    void on(const PluckEnded& event, GuidedCheckOutcome& outcome);
    void on(const SoundIgnored& event, GuidedCheckOutcome& outcome);
    void conclude(const StringCandidate& candidate, const PluckEnded& event, GuidedCheckOutcome& outcome);
    void go_on_to_next_part(const PluckEnded& event, GuidedCheckOutcome& outcome);
    enum class Retake { first, repeats, replaces };
    /// Marks kept readings of the same target that a new one contradicts.
    Retake supersede_others(const CheckTarget& target, const PluckMeasurement& measurement);
    [[nodiscard]] bool tries_are_used_up(const CheckTarget& target);
    void reject(const CheckTarget& target, const PluckMeasurement& measurement, GuidedCheckOutcome& outcome);
    void keep(const StringCandidate& candidate, const PluckEnded& event, GuidedCheckOutcome& outcome);
    void note_passed_over(const CheckTarget& kept, GuidedCheckOutcome& outcome);
    void note_wrong_position(const CheckTarget& heard, const PluckEnded& event, GuidedCheckOutcome& outcome);
    [[nodiscard]] bool setting_in_doubt() const; ///< more than one pedal was heard elsewhere
    [[nodiscard]] bool believes(const std::vector<StringCandidate>& candidates) const;
    void note_ambiguous(const std::vector<StringCandidate>& candidates, const PluckEnded& event,
                        GuidedCheckOutcome& outcome);
    [[nodiscard]] bool note_whole_setting(GuidedCheckOutcome& outcome);
    void note_wrong_sound(const PluckEnded& event);
    /// Pitch cost of the wrong run when all of it is what `belongs` allows; nothing when it cannot be, or
    /// when too few letters speak for a setting as a whole.
    [[nodiscard]] std::optional<double>
    cost_of_wrong_run(const std::function<bool(const CheckTarget&)>& belongs) const;
    [[nodiscard]] bool is_poor(const StringCandidate& best, const PluckEnded& event) const;
    void advance(GuidedCheckOutcome& outcome);
    void enter_station(std::size_t station, GuidedCheckOutcome& outcome);
    void say(CheckNotice notice, GuidedCheckOutcome& outcome);
    void note_pace(Seconds time);

    [[nodiscard]] const CheckStation& station() const { return plan_.stations[state_.station]; }
    [[nodiscard]] std::vector<CheckTarget> pending_in(std::size_t station) const;
    [[nodiscard]] std::vector<CheckTarget> awaited_before(int pluck,
                                                          const std::vector<CheckTarget>& pending) const;
    [[nodiscard]] std::vector<CheckTarget> beginnings_of_next_part(int pluck) const;
    [[nodiscard]] std::optional<Claim> latest_before(int pluck, bool with_attempts) const;
    [[nodiscard]] std::optional<std::size_t> next_unfinished_station() const;
    [[nodiscard]] LocatorKnowledge knowledge_before(int pluck) const;
    [[nodiscard]] CheckTarget as_asked(const CheckTarget& heard) const;
    [[nodiscard]] Cents uncertainty_limit(const CheckTarget& target) const;
    [[nodiscard]] bool good_enough(const CheckTarget& target, const PluckMeasurement& measurement) const;
    [[nodiscard]] const Reading* counting_reading(const CheckTarget& target) const;
    [[nodiscard]] HeardNow heard_as(const CheckTarget& target, const PluckMeasurement& measurement) const;
    [[nodiscard]] std::optional<HarpDrift> drift() const;
    [[nodiscard]] std::optional<Seconds> time_left() const;

    HarpLayout layout_;
    CheckPlan plan_;
    GuidedCheckState state_;
    GuidedCheckSettings settings_;
    LetterPositions standing_{}; ///< where each letter stands, as far as a part has set it
    LetterPositions standing_before_{};
    std::vector<Letter> to_move_;
    std::vector<Claim> claims_;   ///< of this visit to the station, by rising pluck number
    std::vector<Claim> settled_;  ///< good already, but still sounding
    std::vector<Claim> attempts_; ///< heard, but not kept
    std::array<bool, 7> confirmed_{};
    std::array<bool, 7> suspected_{};
    std::vector<CheckTarget> wrong_run_; ///< wrong positions since the last reading that was kept
    /// The sounds that they were heard from, and all that each may be.
    struct WrongSound {
        PluckEnded sound;
        std::vector<StringCandidate> candidates;
    };
    std::vector<WrongSound> wrong_sounds_;
    std::vector<CheckTarget> asked_pair_; ///< the two targets that could not be told apart last
    int asked_pair_count_ = 0;            ///< in a row
    std::optional<CheckTarget> tried_target_;
    int tries_ = 0;                 ///< of tried_target_ in a row
    std::vector<bool> left_before_; ///< by station
    std::optional<int> sounding_;
    std::optional<HeardNow> heard_;
    std::optional<CheckNotice> notice_;
    std::vector<double> pace_s_;
    std::optional<double> last_kept_s_;
    bool paused_ = false;
    bool complete_ = false;
};

} // namespace harpkeep
