// SPDX-License-Identifier: MIT
#include "synth/synthetic_playing.hpp"
#include "synth/synthetic_recording.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep;

namespace {

SyntheticHarp concert_harp()
{
    return make_synthetic_harp(make_layout({.kind = HarpKind::pedal, .string_count = 47}).value(), {});
}

SoundEvent pluck_at(double start_s, StringPlace place, Position position = Position::flat)
{
    return {.start_s = start_s, .place = place, .position = position};
}

double rms_between(const SyntheticRecording& recording, double from_s, double to_s)
{
    const auto first = static_cast<std::size_t>(from_s * recording.sample_rate_hz);
    const auto last = static_cast<std::size_t>(to_s * recording.sample_rate_hz);
    double power = 0.0;
    for (std::size_t n = first; n < last; ++n)
        power += double{recording.samples[n]} * double{recording.samples[n]};
    return std::sqrt(power / static_cast<double>(last - first));
}

} // namespace

TEST_CASE("recording: a pluck starts where the truth says, and not before", "[synth]")
{
    const std::vector events{pluck_at(1.5, {Letter::C, 4}), pluck_at(0.5, {Letter::E, 4})};
    const auto recording = render_recording(concert_harp(), events, {});
    REQUIRE(recording.truth.size() == 2);
    CHECK(recording.truth[0].event.place == StringPlace{Letter::E, 4});
    CHECK(rms_between(recording, 0.0, 0.5) == 0.0);
    CHECK(rms_between(recording, 0.5, 0.6) > 0.01);
    CHECK(rms_between(recording, 1.5, 1.6) > 1.2 * rms_between(recording, 1.4, 1.5));
}

TEST_CASE("recording: noise lies under the median pluck by the promised ratio", "[synth]")
{
    const double snr_db = GENERATE(10.0, 30.0);
    const double pink_share = GENERATE(0.0, 0.5, 1.0);
    CAPTURE(snr_db, pink_share);
    const std::vector events{pluck_at(4.0, {Letter::C, 4}), pluck_at(8.0, {Letter::E, 3}),
                             pluck_at(12.0, {Letter::G, 5})};
    const auto harp = concert_harp();
    const auto clean = render_recording(harp, events, {});
    const auto noisy = render_recording(harp, events, {.snr_db = snr_db, .pink_share = pink_share});

    std::vector<double>
        plucks; // each alone: the others are far enough away for none of them to add more than 1 %
    for (const auto& event : events) {
        const auto alone = render_recording(harp, std::span(&event, 1), {});
        plucks.push_back(rms_between(alone, event.start_s, event.start_s + 0.5));
    }
    std::sort(plucks.begin(), plucks.end());
    const double noise = rms_between(noisy, 0.0, 4.0);
    // Four seconds of pink noise hold few periods of 10 Hz: 1 dB is three standard errors of their power.
    CHECK(20.0 * std::log10(plucks[1] / noise) == Approx(snr_db).margin(1.0));
    CHECK(noisy.noise_rms == Approx(clean.median_pluck_rms * std::pow(10.0, -snr_db / 20.0)).epsilon(1e-12));
}

TEST_CASE("recording: truth names the settled first partial", "[synth]")
{
    const auto harp = concert_harp();
    const std::vector events{pluck_at(0.5, {Letter::A, 4}, Position::sharp)};
    const auto recording = render_recording(harp, events, {});
    const auto index = string_index_of(harp.layout, {Letter::A, 4}).value();
    CHECK(recording.truth[0].frequency_hz ==
          Approx(true_frequency_hz(harp, index, Position::sharp)).epsilon(1e-13));
}

TEST_CASE("recording: a string plucked again is stopped first, another rings on", "[synth]")
{
    const std::vector events{pluck_at(0.5, {Letter::C, 4}), pluck_at(2.0, {Letter::D, 4}),
                             pluck_at(3.5, {Letter::C, 4}, Position::natural)};
    const auto recording = render_recording(concert_harp(), events, {});
    CHECK(recording.truth[0].event.pluck.damp_after_s.value() == Approx(2.95)); // 3.0 s less 0.05 s
    CHECK_FALSE(recording.truth[1].event.pluck.damp_after_s.has_value());
    CHECK_FALSE(recording.truth[2].event.pluck.damp_after_s.has_value());
}

TEST_CASE("recording: offset and clipping are what was asked for", "[synth]")
{
    const std::vector events{pluck_at(0.5, {Letter::C, 4})};
    const auto recording = render_recording(concert_harp(), events, {.dc_offset = 0.1, .gain_db = 20.0});
    CHECK(recording.samples[100] == 0.1F);
    CHECK(*std::max_element(recording.samples.begin(), recording.samples.end()) == 1.0F);
    const auto at_limits = std::count_if(recording.samples.begin(), recording.samples.end(),
                                         [](float s) { return std::abs(s) == 1.0F; });
    CHECK(recording.clipped_share ==
          Approx(static_cast<double>(at_limits) / static_cast<double>(recording.samples.size())));
    CHECK(at_limits > 0);
}

TEST_CASE("recording: same seed, same samples", "[synth][property]")
{
    const std::vector events{pluck_at(0.5, {Letter::C, 4}),
                             SoundEvent{.kind = SoundKind::speech, .start_s = 1.0, .duration_s = 1.0}};
    const auto render = [&](std::uint64_t seed) {
        return render_recording(concert_harp(), events, {.snr_db = 20.0, .hum = MainsHum{}, .seed = seed})
            .samples;
    };
    CHECK(render(5) == render(5));
    CHECK(render(5) != render(6));
}

TEST_CASE("plans: every string in every position once, whichever way", "[synth][property]")
{
    const auto layout = make_layout({.kind = HarpKind::pedal, .string_count = 47}).value();
    const auto direction = GENERATE(Direction::low_to_high, Direction::high_to_low);
    const auto plans = {plan_pass_by_pass(layout, direction), plan_string_by_string(layout, direction),
                        plan_pedal_by_pedal(layout, direction)};
    for (auto plan : plans) {
        CHECK(plan.size() == 45 * 3 + 2); // 7C and 7D have one position
        std::sort(plan.begin(), plan.end(), [](const auto& a, const auto& b) {
            return std::pair(a.string_index, a.position) < std::pair(b.string_index, b.position);
        });
        const auto same = [](const auto& a, const auto& b) {
            return a.string_index == b.string_index && a.position == b.position;
        };
        CHECK(std::adjacent_find(plan.begin(), plan.end(), same) == plan.end());
    }
}

TEST_CASE("plans: the order is that of the player", "[synth]")
{
    const auto layout = make_layout({.kind = HarpKind::pedal, .string_count = 47}).value();
    const auto place = [&](const PlannedPluck& p) { return harp_name(layout.strings[p.string_index].place); };
    const auto passes = plan_pass_by_pass(layout, Direction::high_to_low);
    CHECK(place(passes[0]) == "0G");
    CHECK(passes[46].position == Position::flat);
    CHECK(passes[47].position == Position::natural);
    const auto strings = plan_string_by_string(layout, Direction::low_to_high);
    CHECK(place(strings[2]) == "7E");
    CHECK(strings[4].position == Position::sharp);
    const auto pedals = plan_pedal_by_pedal(layout, Direction::low_to_high);
    CHECK(place(pedals[0]) == "7D");
    CHECK(place(pedals.back()) == "1A");
}

TEST_CASE("play: mishaps happen as often as they were ordered", "[synth]")
{
    const auto harp = concert_harp();
    const auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    const auto performance = play(harp, plan,
                                  {.mishaps = {.skipped = 3,
                                               .repeated = 4,
                                               .corrected = 2,
                                               .uncorrected = 1,
                                               .knocks = 5,
                                               .coughs = 2,
                                               .talks = 1}});
    const auto count = [&](auto&& predicate) {
        return std::count_if(performance.events.begin(), performance.events.end(), predicate);
    };
    CHECK(count([](const auto& e) { return e.kind == SoundKind::pluck; }) == 137 - 3 + 4 + 2);
    CHECK(count([](const auto& e) { return e.mistake; }) == 3);
    CHECK(count([](const auto& e) { return e.kind == SoundKind::knock; }) == 5);
    CHECK(count([](const auto& e) { return e.kind == SoundKind::cough; }) == 2);
    CHECK(count([](const auto& e) { return e.kind == SoundKind::speech; }) == 1);
    CHECK(performance.skipped.size() == 4);
}

TEST_CASE("play: the strings are stilled between two passes", "[synth]")
{
    const auto harp = concert_harp();
    const auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    const auto performance = play(harp, plan, {});
    const auto& last_flat = performance.events[46];
    const auto& first_natural = performance.events[47];
    REQUIRE(last_flat.position == Position::flat);
    REQUIRE(first_natural.position == Position::natural);
    for (std::size_t i = 0; i < 47; ++i) {
        const auto& event = performance.events[i];
        CHECK(event.start_s + event.pluck.damp_after_s.value() < first_natural.start_s - 1.5);
    }
}

TEST_CASE("play: strings in tune with the plucked one sound along when wanted", "[synth]")
{
    const auto harp = concert_harp();
    const std::vector<PlannedPluck> plan{
        {string_index_of(harp.layout, {Letter::C, 4}).value(), Position::natural, 0}};
    const auto performance = play(harp, plan, {.sympathetic_db = -40.0});
    const auto& tones = performance.events[0].pluck.sympathetic;
    REQUIRE(tones.size() > 3);
    const auto near_c5 = std::count_if(tones.begin(), tones.end(), [](const auto& tone) {
        return std::abs(1200.0 * std::log2(tone.frequency_hz / 523.25)) < 60.0;
    });
    CHECK(near_c5 > 0);
}
