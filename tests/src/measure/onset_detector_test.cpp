// SPDX-License-Identifier: MIT
#include "measure/onset_detector.hpp"

#include "synth/random_source.hpp"
#include "sounded_pluck.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

SyntheticRecording record(const std::vector<SoundEvent>& events, double length_s, double snr_db = 40.0)
{
    const auto harp = make_synthetic_harp(make_layout({}).value(), {});
    return render_recording(harp, events,
                            {.sample_rate_hz = rate_hz, .length_s = length_s, .snr_db = snr_db});
}

std::vector<Onset> onsets_of(const std::vector<float>& samples, std::size_t piece)
{
    OnsetDetector detector(rate_hz);
    std::vector<Onset> onsets;
    for (std::size_t i = 0; i < samples.size(); i += piece)
        detector.push(std::span{samples}.subspan(i, std::min(piece, samples.size() - i)), onsets);
    detector.finish(onsets);
    return onsets;
}

std::vector<Onset> certain(std::vector<Onset> onsets)
{
    std::erase_if(onsets, [](const Onset& onset) { return onset.assumed; });
    return onsets;
}

} // namespace

TEST_CASE("onset detector: finds each pluck where it begins", "[measure]")
{
    const auto sound = record({pluck_at(0.5, "5G"), pluck_at(1.2, "3C"), pluck_at(1.6, "1A")}, 2.4);
    const auto onsets = certain(onsets_of(sound.samples, 4096));
    REQUIRE(onsets.size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(onsets[i].time_s == Approx(sound.truth[i].event.start_s).margin(0.010)); // one hop
}

TEST_CASE("onset detector: noise alone holds no onset", "[measure]")
{
    const auto sound = record({pluck_at(0.3, "3C")}, 4.0);
    std::vector<float> noise(sound.samples.size());
    RandomSource random(5);
    for (float& sample : noise) sample = static_cast<float>(0.01 * random.normal());
    CHECK(certain(onsets_of(noise, 4096)).empty());
}

TEST_CASE("onset detector: pieces of any size give the same onsets", "[measure][property]")
{
    const auto sound = record({pluck_at(0.4, "4C"), pluck_at(1.0, "4D")}, 1.6);
    const auto whole = onsets_of(sound.samples, sound.samples.size());
    const std::size_t piece = GENERATE(std::size_t{1}, std::size_t{97}, std::size_t{1000}, std::size_t{8192});
    const auto pieces = onsets_of(sound.samples, piece);
    REQUIRE(pieces.size() == whole.size());
    for (std::size_t i = 0; i < whole.size(); ++i)
        CHECK(pieces[i].time_s == Approx(whole[i].time_s).margin(0.001)); // the step of the refined moment
}

TEST_CASE("onset detector: a string plucked while others ring is found, at 15 dB too", "[measure]")
{
    const auto sound = record({pluck_at(0.5, "6C"), pluck_at(1.3, "5C"), pluck_at(2.1, "4C"),
                               pluck_at(2.9, "3C"), pluck_at(3.7, "2C"), pluck_at(4.5, "1C")},
                              6.0, 15.0);
    const auto onsets = certain(onsets_of(sound.samples, 4096));
    REQUIRE(onsets.size() == 6);
    for (std::size_t i = 0; i < 6; ++i)
        CHECK(onsets[i].time_s == Approx(sound.truth[i].event.start_s).margin(0.020)); // two hops
}

TEST_CASE("onset detector: a tone that beats does not begin anew", "[measure][regression]")
{
    // Two strings of nearly one pitch, in antiphase after 0.17 s and 0.5 s.
    std::vector<float> beating(48000);
    for (std::size_t n = 0; n < beating.size(); ++n) {
        const double t = static_cast<double>(n) / rate_hz - 0.5;
        if (t < 0.0) continue;
        double sum = 0.0;
        for (int k = 1; k <= 8; ++k)
            sum += (std::sin(6.283185307 * 110.0 * k * t) + 0.9 * std::sin(6.283185307 * 113.0 * k * t)) / k;
        beating[n] = static_cast<float>(0.05 * sum * std::exp(-t / 1.5));
    }
    const auto onsets = certain(onsets_of(beating, 4096));
    REQUIRE_FALSE(onsets.empty());
    CHECK(onsets.front().time_s == Approx(0.5).margin(0.01)); // a hop
    for (const auto& onset : onsets) CHECK_FALSE((onset.time_s > 0.51 && onset.time_s < 0.69));
}

TEST_CASE("onset detector: a stream that begins within a sound says so", "[measure]")
{
    const auto sound = record({pluck_at(0.0, "3C")}, 1.5);
    const auto onsets = onsets_of(sound.samples, 4096);
    REQUIRE_FALSE(onsets.empty());
    CHECK(onsets.front().assumed);
}
