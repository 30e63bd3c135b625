// SPDX-License-Identifier: MIT
#include "intake/recording.hpp"

#include "audio/file_hash.hpp"
#include "tests/support/video_file.hpp"
#include "written_harp.hpp"

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;
using Catch::Matchers::Contains;

namespace {

std::vector<PlannedPluck> naturals(const HarpLayout& layout)
{
    return plan_pass(layout, Position::natural, Direction::low_to_high);
}

double off_cents(const PluckMeasurement& pluck, const TrueSound& truth)
{
    return 1200.0 * std::log2(pluck.frequency_hz / truth.frequency_hz);
}

} // namespace

TEST_CASE("hear_recording: hears the same plucks in every kind of file", "[intake]")
{
    const TemporaryFolder folder;
    const auto sound = record(small_harp(), naturals(small_harp()));
    const std::string kind =
        GENERATE("a.wav", "a.flac", "a.m4a", "a.mp3", "a.opus", "a.ogg", "a.mov", "a.mp4");
    CAPTURE(kind);
    std::string path = folder / kind;
    if (kind == "a.mov" || kind == "a.mp4")
        write_video(path, sound.samples); // pictures, and this as their sound
    else
        write_sound(path, sound.samples, sound.sample_rate_hz);
    const auto heard = hear_recording(path);
    REQUIRE(heard.has_value());
    REQUIRE(heard->plucks.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
        CHECK(heard->plucks[i].trusted());
        // Codecs hold a tone to 0.1 cent; noise at 40 dB costs as much.
        CHECK(off_cents(heard->plucks[i], sound.truth[i]) == Approx(0.0).margin(0.3));
        CHECK(heard->plucks[i].start_s == Approx(sound.truth[i].event.start_s).margin(0.03)); // 3 hops
    }
}

TEST_CASE("hear_recording: any usual rate is as good as another", "[intake][property]")
{
    const TemporaryFolder folder;
    const double rate_hz = GENERATE(16000.0, 22050.0, 44100.0, 96000.0);
    CAPTURE(rate_hz);
    const auto sound = record(small_harp(), naturals(small_harp()), rate_hz);
    const auto heard = hear_recording(write_sound(folder / "rate.wav", sound.samples, rate_hz));
    REQUIRE(heard.has_value());
    CHECK(heard->sample_rate_hz == rate_hz);
    REQUIRE(heard->plucks.size() == 8);
    for (std::size_t i = 0; i < 8; ++i)
        CHECK(off_cents(heard->plucks[i], sound.truth[i]) == Approx(0.0).margin(0.3)); // noise at 40 dB
}

TEST_CASE("hear_recording: tells length and hash of the file and how far it is", "[intake]")
{
    const TemporaryFolder folder;
    const auto sound = record(small_harp(), naturals(small_harp()));
    const auto path = write_sound(folder / "a.wav", sound.samples, sound.sample_rate_hz);
    std::vector<double> shares;
    const auto heard = hear_recording(path, [&](double share) {
        shares.push_back(share);
        return true;
    });
    REQUIRE(heard.has_value());
    CHECK(heard->path == path);
    CHECK(heard->sha256 == sha256_of_file(path).value());
    CHECK(heard->duration_s ==
          Approx(static_cast<double>(sound.samples.size()) / sound.sample_rate_hz).margin(1e-4)); // 5 samples
    REQUIRE(shares.size() > 10);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.back() == Approx(1.0).margin(1e-3)); // rounding of the promised length
}

TEST_CASE("hear_recording: stops when it is told to", "[intake]")
{
    const TemporaryFolder folder;
    const auto sound = record(small_harp(), naturals(small_harp()));
    const auto path = write_sound(folder / "a.wav", sound.samples, sound.sample_rate_hz);
    int calls = 0;
    const auto heard = hear_recording(path, [&](double) { return ++calls < 3; });
    REQUIRE_FALSE(heard.has_value());
    CHECK(heard.error().code == ErrorCode::refused);
    CHECK_THAT(heard.error().message, Contains("was stopped"));
    CHECK(calls == 3);
}

TEST_CASE("hear_recording: says why a file is of no use", "[intake]")
{
    const TemporaryFolder folder;
    CHECK(hear_recording(folder / "none.wav").error().code == ErrorCode::not_found);
    const auto silent =
        hear_recording(write_sound(folder / "s.wav", std::vector<float>(48000, 0.0F), 48000.0));
    REQUIRE_FALSE(silent.has_value());
    CHECK(silent.error().code == ErrorCode::unusable_input);
    CHECK_THAT(silent.error().message, Contains("is silent") && Contains("record again"));
}

TEST_CASE("hear_check: files of one pass each, named or not, make one check", "[intake]")
{
    const TemporaryFolder folder;
    const auto layout = small_harp();
    const bool named = GENERATE(false, true);
    std::vector<CheckRecording> recordings;
    for (const Position position : {Position::flat, Position::natural, Position::sharp}) {
        const auto sound = record(layout, plan_pass(layout, position, Direction::high_to_low));
        const std::string name = std::string{position_name(position)} + ".flac";
        recordings.push_back({write_sound(folder / name, sound.samples, sound.sample_rate_hz),
                              named ? std::optional{position} : std::nullopt});
    }
    double last = 0.0;
    const auto check = hear_check(layout, Hertz{440.0}, recordings, [&](double share) {
        const bool rising = share >= last;
        last = share;
        return rising;
    });
    REQUIRE(check.has_value());
    CHECK(last == Approx(1.0).margin(1e-3)); // rounding of the promised length
    CHECK(check->recordings.size() == 3);
    CHECK(check->result.readings.size() == 24);
    for (const auto& reading : check->result.readings) {
        CHECK(reading.file_index == static_cast<int>(reading.position)); // flat, natural, sharp, as named
        CHECK(reading.pluck.trusted());
    }
    CHECK(check->result.steps.size() == 16);
    CHECK(check->result.missing.empty());
}

TEST_CASE("hear_check: one bad file spoils the check, with its name", "[intake]")
{
    const TemporaryFolder folder;
    const auto layout = small_harp();
    const auto sound = record(layout, naturals(layout));
    const auto good = write_sound(folder / "good.wav", sound.samples, sound.sample_rate_hz);
    const auto check =
        hear_check(layout, Hertz{440.0}, {{good, std::nullopt}, {folder / "gone.wav", std::nullopt}});
    REQUIRE_FALSE(check.has_value());
    CHECK_THAT(check.error().message, Contains("gone.wav"));
}
