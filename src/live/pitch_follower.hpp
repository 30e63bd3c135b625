// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "units/quantity.hpp"

#include <complex>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// The pitch of a sounding string at one moment.
struct FollowedPitch {
    Seconds time; ///< of the stream: middle of the stretch that was looked at
    Hertz frequency;
    Cents uncertainty; ///< standard
};

/// Follows the pitch of one sounding string while its pin is turned.
///
/// Given      a measurement of the pluck, whose partials it starts from
/// Notes      A reading fits one pitch to a whole tone; this looks at the last quarter of a second only. Each
///            partial is demodulated at its expected place in two stretches a sixteenth of a second apart;
///            their phase difference gives its frequency. Low partials go first and say where to look for
///            higher ones. The pitch is the measured first partial moved by the weighted mean of what the
///            partials moved, so that inharmonicity cancels.
/// Accuracy   a steady tone of four partials 40 dB over the noise: 0.01 cent at 440 Hz, 0.05 cent at 41 Hz;
/// follows
///            a glide of 100 cents a second to 0.5 cent, 0.16 s behind
///            (tests/src/live/pitch_follower_test.cpp)
/// Reference  phase-difference frequency estimate: J. L. Flanagan and R. M. Golden, Phase Vocoder, Bell Syst.
/// Tech.
///            J. 45, 1493 (1966) (from memory)
class PitchFollower {
  public:
    static constexpr Seconds stretch{0.25};
    static constexpr Seconds apart{0.0625};
    static constexpr Seconds every{0.05};

    explicit PitchFollower(Hertz rate);

    /// Follows this string from now on.
    void follow(const PluckMeasurement& measurement);
    void stop() { partials_.clear(); }

    /// Takes samples that follow the last ones; `first_frame` is counted from the start of the stream. A jump
    /// of it is a hole: the stretch begins anew after it.
    ///
    /// Returns  the pitch, about every twentieth of a second while the string stands out of the noise
    [[nodiscard]] std::optional<FollowedPitch> push(std::span<const float> samples,
                                                    std::uint64_t first_frame);

  private:
    struct FollowedPartial {
        double measured_hz = 0.0; ///< where it was when following began
    };
    struct PartialPitch {
        double cents = 0.0; ///< moved since following began
        double variance = 0.0;
    };
    [[nodiscard]] std::optional<FollowedPitch> look() const;
    [[nodiscard]] double searched(const FollowedPartial& partial, double moved_cents) const;
    [[nodiscard]] std::optional<PartialPitch> look_at(const FollowedPartial& partial,
                                                      double moved_cents) const;
    [[nodiscard]] std::complex<double> demodulated(std::size_t first, double frequency_hz) const;

    double rate_hz_;
    std::vector<double> window_;
    std::vector<double> samples_; ///< the last stretch and the one before it
    std::uint64_t next_frame_ = 0;
    std::size_t since_look_ = 0;
    double first_partial_hz_ = 0.0;
    double moved_cents_ = 0.0; ///< as of the last look
    std::vector<FollowedPartial> partials_;
};

} // namespace harpkeep
