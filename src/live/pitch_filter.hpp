// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <optional>

namespace harpkeep {

/// A pitch at one moment, as deviation from its target.
struct PitchReading {
    Seconds time;
    Cents deviation;
    Cents uncertainty; ///< standard, > 0
};

/// What a screen shows of a pitch: steady to read, quick to follow.
struct SteadyPitch {
    Cents deviation;
    Cents uncertainty;    ///< standard
    bool turning = false; ///< the pitch is moving: the tuner turns the pin
};

/// Smooths a series of pitch readings.
///
/// Notes      A Kalman filter whose pitch wanders by 1 cent in a second. Two readings in a row that lie more
/// than
///            three standard uncertainties on the same side mean that the pin is being turned: the filter
///            then starts afresh from the second. A single stray reading moves it little.
/// Accuracy   readings every 50 ms with 0.5 cent of scatter: at rest the shown pitch scatters by 0.3 cent;
/// after
///            a jump of 20 cents it is within 1 cent in 0.1 s; at 10 cents a second it lags by 1.5 cents
///            (tests/src/live/pitch_filter_test.cpp)
/// Reference  R. E. Kalman, J. Basic Engineering 82, 35 (1960): scalar random walk (from memory)
class PitchFilter {
  public:
    SteadyPitch operator()(const PitchReading& reading);
    void reset();

  private:
    struct State {
        double time_s;
        double cents;
        double variance;
    };
    std::optional<State> state_;
    int outside_ = 0; ///< readings in a row outside, signed by their side
};

} // namespace harpkeep
