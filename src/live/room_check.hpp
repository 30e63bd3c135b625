// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace harpkeep {

/// What is wrong with a room or a microphone.
enum class RoomProblem {
    dead_source, ///< exact zeros: muted, or nothing is plugged in
    noisy,       ///< the room is loud
    hum,         ///< mains hum of 50 or 60 Hz
    clipping,    ///< the loudest samples are cut off
    too_quiet,   ///< a pluck hardly stands out
    offset,      ///< a constant voltage in the signal
};

[[nodiscard]] std::string_view problem_name(RoomProblem problem);
/// One plain sentence: what to do about it.
[[nodiscard]] std::string_view problem_advice(RoomProblem problem);

/// What was heard before a check begins. Levels are in decibels re full scale (a sample of 1); a level of a
/// sound is its root mean square, a peak its largest sample.
struct RoomReport {
    Seconds listened;                  ///< in silence
    std::optional<Decibels> noise;     ///< level in silence, above 20 Hz; nothing before half a second
    std::optional<Decibels> hum;       ///< level of the hum alone, when it stands out
    std::optional<Hertz> mains;        ///< 50 or 60 Hz, when there is hum
    std::optional<Decibels> peak;      ///< of everything heard
    std::optional<Decibels> pluck;     ///< peak while plucks were asked for
    std::uint64_t clipped_samples = 0; ///< in runs of three and more at one extreme value
    double offset = 0.0;               ///< mean sample in silence
    std::vector<RoomProblem> problems;
};

/// Judges room and microphone from blocks of samples: first in silence, then while a few strings are plucked.
///
/// Notes     The limits are the project's own choice, from what a reading needs: partials that stand 20 dB
/// out
///           of the noise for a second, that is plucks 40 dB over the level of the noise.
/// Accuracy  noise and hum of known level found to 0.5 dB (tests/src/live/room_check_test.cpp)
class RoomCheck {
  public:
    static constexpr Decibels noisy_over{-50.0};
    static constexpr Decibels hum_over{-75.0};
    static constexpr Decibels quiet_pluck_under{-40.0};
    static constexpr Decibels least_room_for_plucks{
        40.0}; ///< from the level of the noise to the peak of a pluck

    explicit RoomCheck(Hertz rate);

    void push(std::span<const float> samples);
    /// From now on plucks are asked for: noise and hum stay as they were found.
    void expect_plucks() { expecting_plucks_ = true; }
    [[nodiscard]] RoomReport report() const;

  private:
    void hear_silence(double sample);
    void end_second();
    void watch_clipping(float sample);

    double rate_hz_;
    bool expecting_plucks_ = false;
    std::vector<double> second_;       ///< high-passed samples of the second under way
    std::vector<double> block_powers_; ///< of tenths of a second in silence
    double block_power_sum_ = 0.0;
    std::size_t block_samples_ = 0;
    double high_pass_in_ = 0.0;
    double high_pass_out_ = 0.0;
    double sum_ = 0.0;
    std::uint64_t silent_samples_ = 0;
    std::uint64_t nonzero_samples_ = 0;
    double hum_power_[2] = {0.0, 0.0}; ///< 50 Hz, 60 Hz: sums over seconds
    int seconds_ = 0;
    float peak_ = 0.0F;
    float pluck_peak_ = 0.0F;
    float run_value_ = 0.0F;
    std::uint64_t run_length_ = 0;
    std::uint64_t clipped_samples_ = 0;
};

} // namespace harpkeep
