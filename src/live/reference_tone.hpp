// SPDX-License-Identifier: MIT
#pragma once

#include "signal/real_fft.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A tone that held its pitch.
struct SteadyTone {
    Hertz frequency;
    Cents uncertainty; ///< standard
};

/// Hears the tone that a harp is to be tuned to: a fork, whose sound is one partial, an oboe, a string that
/// is bowed.
///
/// Notes      It looks at the last second, eight times a second. The strongest partial between 90 and 2000 Hz
///            must stand 25 dB out of what is around it and stay within half a cent for four looks; the tone
///            is the lowest partial of which it is a multiple. Talk wavers and is not taken.
/// Accuracy   a sine, and a tone of eight partials, 30 dB over the noise: 0.05 cent
///            (tests/src/live/reference_tone_test.cpp)
class ReferenceTone {
  public:
    explicit ReferenceTone(Hertz rate);

    /// Takes samples that follow the last ones; returns the tone once it is sure.
    [[nodiscard]] std::optional<SteadyTone> push(std::span<const float> samples);
    /// Samples are missing: what was heard before them is forgotten.
    void reset();

  private:
    [[nodiscard]] std::optional<double> look();
    [[nodiscard]] std::optional<SteadyTone> tone_of_looks() const;

    double rate_hz_;
    std::size_t span_; ///< samples that a look takes
    RealFft fft_;
    std::vector<float> samples_;
    std::size_t since_look_ = 0;
    std::vector<double> looks_hz_; ///< the last ones, alike or not
};

} // namespace harpkeep
