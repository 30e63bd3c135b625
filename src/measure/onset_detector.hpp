// SPDX-License-Identifier: MIT
#pragma once

#include "signal/real_fft.hpp"

#include <cstdint>
#include <deque>
#include <span>
#include <vector>

namespace harpkeep {

/// The start of a sound: a pluck, a knock, a syllable.
struct Onset {
    double time_s = 0.0;
    bool assumed = false; ///< the stream may have begun in the middle of a sound
    double rise_db = 0.0; ///< summed over the bands in which the sound rose; 0 when assumed
};

/// Finds where sounds begin in a stream.
///
/// Notes     A short spectrum every 10 ms is gathered into bands a sixth of an octave wide; an onset is where
/// the
///           levels of many bands rise at once, above their own noise floors and above what they held 20 to
///           40 ms before. Strings that ring on do not hide a new one, for it brings partials of its own;
///           their beats move few bands. The moment is then refined to a millisecond by the energy of the
///           treble.
class OnsetDetector {
  public:
    /// Given  rate_hz  of the samples, best 16 to 32 kHz
    explicit OnsetDetector(double rate_hz);

    /// Takes the next samples; appends the onsets that are now certain (about 60 ms after the fact).
    void push(std::span<const float> samples, std::vector<Onset>& onsets);
    void finish(std::vector<Onset>& onsets);

  private:
    struct Band {
        std::size_t first, last; ///< bins [first, last)
    };
    struct Frame {
        std::vector<double> level_db;
        double rise_db = 0.0;
    };

    void take_frame(std::span<const float> samples);
    void pick(std::vector<Onset>& onsets, bool at_end);
    [[nodiscard]] double threshold_db(std::size_t frame) const;
    [[nodiscard]] double refined_time_s(std::int64_t frame) const;
    [[nodiscard]] const Frame& frame(std::int64_t index) const
    {
        return frames_[static_cast<std::size_t>(index - first_frame_)];
    }

    double rate_hz_;
    std::size_t hop_;
    RealFft fft_;
    std::vector<double> window_;
    std::vector<Band> bands_;
    std::vector<double> floors_; ///< power of each band's noise
    std::vector<float> samples_; ///< from first_sample_ on
    std::int64_t first_sample_ = 0;
    std::deque<Frame> frames_; ///< the newest seconds
    std::int64_t first_frame_ = 0;
    std::int64_t next_frame_ = 0; ///< to be taken
    std::int64_t next_pick_ = 0;  ///< to be judged
    std::int64_t last_onset_frame_ = -1000;
    double last_rise_db_ = 0.0;
};

} // namespace harpkeep
