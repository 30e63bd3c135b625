// SPDX-License-Identifier: MIT
#pragma once

#include "audio/sound_writer.hpp"
#include "synth/synthetic_playing.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace harpkeep::tests {

/// A small invented harp, 4C to 3C.
inline HarpLayout small_harp()
{
    return make_layout({.lowest = place_from_harp_name("4C"), .highest = place_from_harp_name("3C")}).value();
}

inline SyntheticRecording record(const HarpLayout& layout, const std::vector<PlannedPluck>& plan,
                                 double sample_rate_hz = 48000.0)
{
    const auto harp = make_synthetic_harp(layout, {.seed = 9});
    const auto performance = play(harp, plan, {.first_s = 0.6, .gap_s = 1.0, .between_groups_s = 0.6});
    return render_recording(harp, performance.events, {.sample_rate_hz = sample_rate_hz, .snr_db = 40.0});
}

inline std::string write_sound(const std::string& path, const std::vector<float>& samples, double rate_hz,
                               int repeats = 1)
{
    auto writer =
        SoundWriter::create(path, {.sample_rate_hz = static_cast<int>(rate_hz), .bits_per_sample = 16});
    REQUIRE(writer.has_value());
    for (int i = 0; i < repeats; ++i) REQUIRE(writer->write(samples).has_value());
    REQUIRE(writer->finish().has_value());
    return path;
}

} // namespace harpkeep::tests
