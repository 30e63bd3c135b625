// SPDX-License-Identifier: MIT
#pragma once

#include "measure/onset_detector.hpp"
#include "measure/pitch_candidates.hpp"
#include "measure/pluck_event.hpp"
#include "signal/octave_pyramid.hpp"

#include <deque>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// Turns a stream of sound into plucks: the one engine behind recordings and live checks.
///
/// Notes     Fed with a file in pieces of any size it finds what it finds when fed live; only the moments at
///           which it can speak differ. It keeps the newest seconds of sound, never all of it.
class PluckStream {
  public:
    struct Settings {
        double rate_hz = 48000.0;
        bool estimates = false; ///< emit PluckEstimated while a tone rings (live)
    };

    explicit PluckStream(const Settings& settings);

    /// Takes the next samples; returns what is now known, in order of time.
    [[nodiscard]] std::vector<PluckEvent> push(std::span<const float> samples);
    /// The sound has ended, or has a gap: what still rings is measured with what is there.
    [[nodiscard]] std::vector<PluckEvent> finish();

  private:
    struct Sounding {
        int number = 0;
        double onset_s = 0.0;
        double next_estimate_s = 0.0;
        bool assumed = false; ///< not announced before it proves to be a string
    };

    void advance(std::vector<PluckEvent>& events, bool at_end);
    void conclude(const Sounding& pluck, double until_s, std::vector<PluckEvent>& events);
    void estimate(Sounding& pluck, double now_s, std::vector<PluckEvent>& events);

    Settings settings_;
    OctavePyramid sound_;
    int onset_level_;
    std::int64_t onset_fed_ = 0;
    OnsetDetector detector_;
    PitchFinder finder_;
    std::deque<Onset> onsets_; ///< found, not yet begun
    std::optional<Sounding> sounding_;
    int next_number_ = 1;
    double last_talk_s_ = -1e9; ///< when a syllable last began
};

} // namespace harpkeep
