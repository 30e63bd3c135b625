// SPDX-License-Identifier: MIT
#include "measure/pitch_candidates.hpp"

#include "measure/partial_rise.hpp"
#include "measure/pluck_judgement.hpp"
#include "synth/synthetic_recording.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 32000.0;

SoundEvent pluck_at(double start_s, StringPlace place, Position position)
{
    SoundEvent event{.start_s = start_s, .place = place, .position = position};
    event.pluck.level_dbfs = -20.0;
    return event;
}

SoundEvent pluck_at(double start_s, const char* name, Position position)
{
    return pluck_at(start_s, place_from_harp_name(name).value(), position);
}

SyntheticHarp concert_harp()
{
    return make_synthetic_harp(make_layout({}).value(), {});
}

/// A sound as the stream keeps it.
struct Kept {
    SyntheticRecording recording;
    OctavePyramid sound{rate_hz, 30.0};
};

Kept keep(const SyntheticHarp& harp, const std::vector<SoundEvent>& events, double snr_db = 35.0)
{
    Kept kept{.recording = render_recording(harp, events, {.sample_rate_hz = rate_hz, .snr_db = snr_db})};
    kept.sound.push(kept.recording.samples);
    kept.sound.finish();
    return kept;
}

double off_cents(double frequency_hz, const TrueSound& truth)
{
    return 1200.0 * std::log2(frequency_hz / truth.frequency_hz);
}

} // namespace

TEST_CASE("PitchFinder: the best candidate of every string of a harp is its pitch", "[measure][property]")
{
    const auto harp = concert_harp();
    std::vector<SoundEvent> events;
    const std::size_t first = GENERATE(range(0u, 6u));
    for (std::size_t i = first; i < harp.layout.strings.size(); i += 6)
        events.push_back(pluck_at(0.5 + 1.5 * static_cast<double>(events.size()),
                                  harp.layout.strings[i].place,
                                  positions_of(harp.layout.kind, harp.layout.strings[i]).back()));
    const auto kept = keep(harp, events);
    PitchFinder finder;
    for (const auto& truth : kept.recording.truth) {
        const auto candidates = finder(kept.sound, truth.event.start_s, truth.event.start_s + 1.4);
        CAPTURE(harp_name(truth.event.place));
        REQUIRE_FALSE(candidates.empty());
        CHECK(off_cents(candidates.front().frequency_hz, truth) ==
              Approx(0.0).margin(16.0)); // a tenth of a bin in the bass
        CHECK(std::is_sorted(candidates.begin(), candidates.end(),
                             [](const auto& a, const auto& b) { return a.score > b.score; }));
        CHECK(candidates.size() <= 6);
    }
}

TEST_CASE("PitchFinder: a string without its first partial keeps its pitch", "[measure]")
{
    auto harp = concert_harp();
    const char* name = GENERATE("6E", "5G", "5C", "4G", "3A");
    harp.strings[string_index_of(harp.layout, place_from_harp_name(name).value()).value()]
        .open.fundamental_db = -200.0;
    CAPTURE(name);
    const auto kept = keep(harp, {pluck_at(0.5, name, Position::natural)});
    const auto candidates = PitchFinder{}(kept.sound, 0.5, 2.0);
    REQUIRE_FALSE(candidates.empty());
    CHECK(off_cents(candidates.front().frequency_hz, kept.recording.truth.front()) ==
          Approx(0.0).margin(12.0)); // a tenth of a bin
}

TEST_CASE("PitchFinder: a string plucked over another of its pitch is no octave up", "[measure][regression]")
{
    const auto [low, high] =
        GENERATE(std::pair{"6G", "6A"}, std::pair{"6C", "6D"}, std::pair{"5F", "5G"}, std::pair{"3D", "3E"});
    // G sharp and A flat, C sharp and D flat, F sharp and G flat, D sharp and E flat.
    const auto kept =
        keep(concert_harp(), {pluck_at(0.5, low, Position::sharp), pluck_at(2.2, high, Position::flat)});
    const auto candidates = PitchFinder{}(kept.sound, 2.2, 3.8);
    REQUIRE_FALSE(candidates.empty());
    CHECK(off_cents(candidates.front().frequency_hz, kept.recording.truth.back()) ==
          Approx(0.0).margin(20.0)); // two tones lie in one peak
}

TEST_CASE("PitchFinder: where nothing begins there is no candidate worth naming", "[measure]")
{
    const auto kept = keep(concert_harp(), {pluck_at(0.5, "5C", Position::natural)});
    const auto candidates = PitchFinder{}(kept.sound, 1.6, 2.4); // in the middle of the tone

    OctavePyramid silence(rate_hz, 10.0);
    silence.push(std::vector<float>(64000, 0.0F));
    CHECK(PitchFinder{}(silence, 1.0, 1.8).empty());
}

TEST_CASE("partial_rise: a string brings partials and little between them", "[measure]")
{
    const char* name = GENERATE("5C", "4C", "3C", "2C");
    const auto kept = keep(concert_harp(), {pluck_at(1.0, name, Position::flat)});
    const auto& truth = kept.recording.truth.front();
    const auto rise = partial_rise(kept.sound, {1.0, 2.5}, truth.frequency_hz);
    REQUIRE(rise.has_value());
    CHECK(rise->at_db > 20.0); // 35 dB above the noise of the whole band
    CHECK(rise->between_db < 4.0);
    // Seen as the octave above, half of its partials lie between.
    const auto octave = partial_rise(kept.sound, {1.0, 2.5}, 2.0 * truth.frequency_hz);
    REQUIRE(octave.has_value());
    CHECK(octave->between_db > 15.0);
    CHECK_FALSE(partial_rise(kept.sound, {0.02, 1.0}, 200.0).has_value()); // nothing is known of before
}

TEST_CASE("judge_pluck: a string is measured, with the pitches it might be mistaken for", "[measure]")
{
    const auto kept = keep(concert_harp(),
                           {pluck_at(0.5, "4C", Position::natural), pluck_at(1.3, "3C", Position::natural)});
    PitchFinder finder;
    const ToneSpan span{1.3, 2.8};
    const auto judged = judge_pluck(kept.sound, span, finder(kept.sound, span.onset_s, span.until_s));
    REQUIRE(judged.has_value());
    CHECK(judged->trusted());
    CHECK(off_cents(judged->frequency_hz, kept.recording.truth.back()) ==
          Approx(0.0).margin(2.0)); // both sound
}

TEST_CASE("judge_pluck: a knock, a cough and nothing are told apart from strings", "[measure]")
{
    const std::vector<SoundEvent> events{pluck_at(0.3, "2C", Position::natural),
                                         {.kind = SoundKind::knock, .start_s = 2.0, .level_dbfs = -18.0},
                                         {.kind = SoundKind::cough, .start_s = 3.0, .level_dbfs = -18.0}};
    const auto kept = keep(concert_harp(), events);
    PitchFinder finder;
    const auto reason = [&](double onset_s, double until_s) -> std::string {
        const auto judged = judge_pluck(kept.sound, {onset_s, until_s}, finder(kept.sound, onset_s, until_s));
        return judged ? "a string" : judged.error();
    };
    CHECK(reason(0.3, 1.9) == "a string");
    CHECK(reason(2.0, 2.9) == "knock");
    const auto cough = reason(3.0, 3.2);
    CHECK((cough == "noise" || cough == "knock" || cough == talk_reason));
    CHECK(judge_pluck(kept.sound, {1.5, 1.9}, {}).error() == "nothing new sounds");
}
