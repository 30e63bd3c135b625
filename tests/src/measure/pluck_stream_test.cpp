// SPDX-License-Identifier: MIT
#include "measure/pluck_stream.hpp"
#include "sounded_pluck.hpp"
#include "tests/support/whole_harp.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// What a recording departs in from a good one.
struct Room {
    double snr_db = 40.0;
    double dc_offset = 0.0;
    std::optional<MainsHum> hum;
    std::uint64_t seed = 1;
};

SyntheticRecording record(const std::vector<SoundEvent>& events, double length_s, const Room& room = {})
{
    const auto harp = make_synthetic_harp(make_layout({}).value(), {});
    RecordingSettings settings;
    settings.sample_rate_hz = rate_hz;
    settings.length_s = length_s;
    settings.snr_db = room.snr_db;
    settings.dc_offset = room.dc_offset;
    settings.hum = room.hum;
    settings.seed = room.seed;
    return render_recording(harp, events, settings);
}

int trusted_of(const HeardSounds& heard)
{
    int trusted = 0;
    for (const auto& pluck : heard.plucks) trusted += pluck.measurement.trusted();
    return trusted;
}

std::string list_of(const HeardSounds& heard)
{
    std::string list;
    for (const auto& pluck : heard.plucks) {
        const auto& m = pluck.measurement;
        list +=
            fmt::format("{:.2f} s, {:.1f} Hz, u {:.2f} cents, {} partials, decay {:.3f} s, snr {:.0f} dB{}\n",
                        m.start_s, m.frequency_hz, m.uncertainty_cents, m.partials.size(), m.decay_s,
                        m.snr_db, m.trusted() ? "" : ", doubted");
    }
    return list;
}

double off_cents(const PluckMeasurement& heard, const TrueSound& truth)
{
    return 1200.0 * std::log2(heard.frequency_hz / truth.frequency_hz);
}

/// How a stream that grows by 20 ms at a time tells of the first pluck.
struct Told {
    double first_estimate_s = 1e9; ///< of what had sounded by then, after the onset
    std::optional<double> final_hz;
};

Told told_while_it_sounds(const SyntheticRecording& recording, double onset_s)
{
    constexpr double piece_s = 0.02;
    PluckStream stream({.rate_hz = recording.sample_rate_hz, .estimates = true});
    Told told;
    double heard_s = 0.0;
    const auto take = [&](const std::vector<PluckEvent>& events) {
        for (const auto& event : events) {
            if (std::holds_alternative<PluckEstimated>(event))
                told.first_estimate_s = std::min(told.first_estimate_s, heard_s - onset_s);
            const auto* ended = std::get_if<PluckEnded>(&event);
            if (ended && !told.final_hz) told.final_hz = ended->measurement.frequency_hz;
        }
    };
    const auto piece = static_cast<std::size_t>(piece_s * recording.sample_rate_hz);
    const std::span<const float> samples = recording.samples;
    for (std::size_t i = 0; i < samples.size(); i += piece) {
        heard_s = static_cast<double>(std::min(i + piece, samples.size())) / recording.sample_rate_hz;
        take(stream.push(samples.subspan(i, std::min(piece, samples.size() - i))));
    }
    take(stream.finish());
    return told;
}

} // namespace

TEST_CASE("pluck stream: a sounding string is named in time, and in the end as in a file", "[measure][twin]")
{
    // 0.4 s above 4C and 0.8 s in the bass are the goals; 0.02 s: the pieces that the stream grows by.
    for (const auto& [place, latest_s] :
         {std::pair{"1E", 0.4}, {"2A", 0.4}, {"4D", 0.4}, {"4B", 0.8}, {"5G", 0.8}, {"6C", 0.8}}) {
        INFO(place);
        const auto recording = record({pluck_at(1.0, place)}, 6.0);
        const auto told = told_while_it_sounds(recording, 1.0);
        CHECK(told.first_estimate_s <= latest_s + 0.02);
        const auto file = hear(recording.samples, recording.sample_rate_hz, recording.samples.size());
        REQUIRE(file.plucks.size() == 1);
        REQUIRE(told.final_hz);
        CHECK(std::abs(1200.0 * std::log2(*told.final_hz / file.plucks[0].measurement.frequency_hz)) <
              0.01); // the goal: the same engine on the same samples
    }
}

TEST_CASE("pluck stream: pieces of any size give the same plucks", "[measure][property]")
{
    const auto sound = record({pluck_at(0.4, "4C"), pluck_at(1.2, "4D"), pluck_at(2.0, "2E")}, 2.8);
    const auto whole = hear(sound.samples, rate_hz, sound.samples.size());
    REQUIRE(whole.plucks.size() == 3);
    const std::size_t piece = GENERATE(std::size_t{61}, std::size_t{1024}, std::size_t{16384});
    const auto pieces = hear(sound.samples, rate_hz, piece);
    REQUIRE(pieces.plucks.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const double expected_hz = whole.plucks[i].measurement.frequency_hz;
        CHECK(pieces.plucks[i].measurement.frequency_hz == Approx(expected_hz).epsilon(1e-5)); // 0.02 cents
    }
}

TEST_CASE("pluck stream: a string that sounds from time 0 on is heard", "[measure]")
{
    const auto sound = record({pluck_at(0.0, "3C"), pluck_at(1.5, "3D")}, 2.6);
    const auto heard = hear(sound.samples, rate_hz);
    REQUIRE(heard.plucks.size() == 2);
    CHECK(heard.plucks.front().measurement.start_s == Approx(0.0).margin(0.05)); // a frame of the detector
    CHECK(off_cents(heard.plucks.front().measurement, sound.truth.front()) ==
          Approx(0.0).margin(1.0)); // placing needs no more
}

TEST_CASE("pluck stream: a constant offset of the microphone changes nothing", "[measure]")
{
    const auto sound = record({pluck_at(0.5, "4G")}, 1.8, {.dc_offset = 0.2});
    const auto heard = hear(sound.samples, rate_hz);
    REQUIRE(heard.plucks.size() == 1);
    CHECK(off_cents(heard.plucks.front().measurement, sound.truth.front()) ==
          Approx(0.0).margin(1.0)); // placing needs no more
}

TEST_CASE("pluck stream: knocks are no plucks", "[measure]")
{
    std::vector<SoundEvent> events{pluck_at(0.5, "3C")};
    for (int i = 0; i < 6; ++i)
        events.push_back({.kind = SoundKind::knock, .start_s = 1.8 + 0.7 * i, .level_dbfs = -20.0});
    const auto sound = record(events, 6.5);
    const auto heard = hear(sound.samples, rate_hz);
    CHECK(heard.plucks.size() == 1);
    CHECK(heard.ignored.size() >= 5); // two may melt into one
}

TEST_CASE("pluck stream: coughs and speech give no trusted reading", "[measure]")
{
    const std::uint64_t seed = GENERATE(1u, 2u, 3u, 4u, 5u, 6u, 7u, 8u);
    const auto sound =
        record({pluck_at(0.4, "3C"),
                {.kind = SoundKind::cough, .start_s = 2.0, .level_dbfs = -18.0},
                {.kind = SoundKind::cough, .start_s = 3.0, .level_dbfs = -24.0},
                {.kind = SoundKind::speech, .start_s = 4.0, .level_dbfs = -22.0, .duration_s = 3.0}},
               7.5, {.seed = seed});
    const auto heard = hear(sound.samples, rate_hz);
    INFO(list_of(heard));
    CHECK(trusted_of(heard) == 1);
}

TEST_CASE("pluck stream: a string sounded after talk is heard and trusted", "[measure]")
{
    const auto sound =
        record({{.kind = SoundKind::speech, .start_s = 0.5, .level_dbfs = -22.0, .duration_s = 2.0},
                pluck_at(3.1, "3C")},
               5.0);
    const auto heard = hear(sound.samples, rate_hz);
    INFO(list_of(heard));
    REQUIRE_FALSE(heard.plucks.empty());
    CHECK(heard.plucks.back().measurement.start_s == Approx(3.1).margin(0.01)); // a hop of the detector
    CHECK(heard.plucks.back().measurement.trusted()); // half a second later it is the string alone
    CHECK(trusted_of(heard) == 1);
}

TEST_CASE("pluck stream: noise and hum alone hold no string", "[measure]")
{
    const std::uint64_t seed = GENERATE(1u, 2u, 3u, 4u);
    auto late = pluck_at(3.0, "3C");
    const auto sound = record({late}, 4.5, {.snr_db = 10.0, .hum = MainsHum{}, .seed = seed});
    const auto heard = hear(sound.samples, rate_hz);
    INFO(list_of(heard));
    REQUIRE(heard.plucks.size() == 1);
    CHECK(heard.plucks.front().measurement.start_s == Approx(3.0).margin(0.01)); // a hop of the detector
}

TEST_CASE("pluck stream: a tone cut short by the next one is told", "[measure]")
{
    const auto sound = record({pluck_at(0.5, "5G"), pluck_at(0.74, "5A")}, 2.4);
    const auto heard = hear(sound.samples, rate_hz);
    REQUIRE(heard.plucks.size() == 2);
    CHECK(heard.plucks.front().measurement.doubts == std::vector{Doubt::too_short});
    CHECK(heard.plucks.back().measurement.trusted());
}

TEST_CASE("pluck stream: silence and a sound too short hold nothing", "[measure]")
{
    CHECK(hear(std::vector<float>(24000, 0.0F), rate_hz).plucks.empty());
    CHECK(hear(std::vector<float>(10, 0.1F), rate_hz).plucks.empty());
    CHECK(hear({}, rate_hz).plucks.empty());
}
