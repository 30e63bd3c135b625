// SPDX-License-Identifier: MIT
#pragma once

#include "harp/expected_pitch.hpp"
#include "live/guided_check.hpp"
#include "units/interval.hpp"

#include <map>
#include <random>
#include <utility>

namespace harpkeep::test {

/// A harp of known pitches and somebody who plucks it, as events without sound.
///
/// Strings lie off equal temperament by 5 cents and steps off a semitone by 2 (standard deviations); a pluck
/// scatters by 0.1 cent.
class Player {
  public:
    Player(HarpLayout layout, unsigned seed) : layout_(std::move(layout)), random_(seed)
    {
        std::normal_distribution<double> mistuning{0.0, 5.0};
        std::normal_distribution<double> misstep{0.0, 2.0};
        for (const HarpString& string : layout_.strings) {
            double cents = mistuning(random_);
            for (const Position position : positions_of(layout_.kind, string)) {
                offsets_[{string.place, position}] = cents;
                cents += misstep(random_);
            }
        }
    }

    [[nodiscard]] Hertz pitch(StringPlace place, Position position) const
    {
        const HarpString& string = *find_string(layout_, place);
        return raised(expected_pitch(string, position, Hertz{440.0}),
                      Cents{offsets_.at({place, position}) + drift_cents});
    }

    /// What a good pluck measures.
    [[nodiscard]] PluckMeasurement measurement(StringPlace place, Position position)
    {
        std::normal_distribution<double> scatter{0.0, 0.1};
        PluckMeasurement measured;
        measured.start_s = time_s;
        measured.frequency_hz = raised(pitch(place, position), Cents{scatter(random_)}).value();
        measured.uncertainty_cents = 0.1;
        return measured;
    }

    /// The events of one pluck, two seconds long; `poor` may spoil the measurement.
    template <class Poor>
    GuidedCheckOutcome pluck(GuidedCheck& check, StringPlace place, Position position, Poor poor)
    {
        const int number = next_pluck_++;
        PluckMeasurement measured = measurement(place, position);
        poor(measured);
        check.handle(PluckBegan{number, Seconds{time_s}});
        check.handle(PluckEstimated{number, Seconds{time_s + 0.5}, measured});
        time_s += 2.0;
        return check.handle(PluckEnded{number, Seconds{time_s}, measured});
    }

    GuidedCheckOutcome pluck(GuidedCheck& check, StringPlace place, Position position)
    {
        return pluck(check, place, position, [](PluckMeasurement&) {});
    }
    GuidedCheckOutcome pluck(GuidedCheck& check, const CheckTarget& target)
    {
        return pluck(check, target.place, target.position);
    }
    GuidedCheckOutcome knock(GuidedCheck& check)
    {
        return check.handle(SoundIgnored{next_pluck_++, Seconds{time_s}, "knock"});
    }

    /// Plays what the check asks for until it is complete or `most` plucks are spent.
    void play_on(GuidedCheck& check, int most = 1000)
    {
        for (int plucks = 0; plucks < most && !check.complete(); ++plucks) pluck(check, *check.view().next);
    }

    /// Counting readings whose pitch is not that of the string and position that they claim.
    [[nodiscard]] int wrong_places(const GuidedCheck& check) const
    {
        int wrong = 0;
        for (const KeptReading& kept : check.state().readings) {
            if (kept.superseded) continue;
            const Reading& reading = kept.reading;
            const Cents off =
                interval(pitch(reading.place, reading.position), Hertz{reading.pluck.frequency_hz});
            wrong += std::abs(off.value()) > 1.0; // ten times the scatter of a pluck
        }
        return wrong;
    }

    double time_s = 10.0;
    double drift_cents = 0.0;

  private:
    HarpLayout layout_;
    std::mt19937 random_;
    std::map<std::pair<StringPlace, Position>, double> offsets_;
    int next_pluck_ = 0;
};

[[nodiscard]] inline bool said(const GuidedCheckOutcome& outcome, NoticeKind kind)
{
    for (const CheckNotice& notice : outcome.notices)
        if (notice.kind == kind) return true;
    return false;
}

} // namespace harpkeep::test
