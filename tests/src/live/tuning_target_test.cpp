// SPDX-License-Identifier: MIT
#include "live/tuning_target.hpp"

#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;

namespace {

HarpLayout pedal_harp()
{
    return *make_layout({.kind = HarpKind::pedal, .string_count = 47});
}

Hertz target_of(const std::vector<TuningTarget>& targets, StringPlace place)
{
    return std::find_if(targets.begin(), targets.end(),
                        [&](const auto& target) { return target.place == place; })
        ->frequency;
}

} // namespace

TEST_CASE("tuning_targets: all pedals up is C flat major", "[live][reference]")
{
    const auto targets = *tuning_targets(pedal_harp(), {});
    REQUIRE(targets.size() == 47);
    // 12-tone equal temperament from 440 Hz, computed independently (B3, A flat 4)
    CHECK(target_of(targets, {Letter::C, 4}).value() == Approx(246.9417).epsilon(1e-6));
    CHECK(target_of(targets, {Letter::A, 4}).value() == Approx(415.3047).epsilon(1e-6));
}

TEST_CASE("tuning_targets: in naturals the strings without discs stay flat", "[live]")
{
    const auto targets = *tuning_targets(pedal_harp(), {.tuned_in = TunedIn::naturals});
    CHECK(target_of(targets, {Letter::A, 4}).value() == Approx(440.0));
    CHECK(target_of(targets, {Letter::C, 1}).value() == Approx(30.8677).epsilon(1e-5)); // C flat 1
}

TEST_CASE("tuning_targets: a lever harp in E flat", "[live]")
{
    const auto layout = *make_layout({.kind = HarpKind::lever, .string_count = 34});
    const auto targets = *tuning_targets(layout, {});
    CHECK(target_of(targets, {Letter::E, 4}).value() == Approx(311.1270).epsilon(1e-6)); // E flat 4
    CHECK(target_of(targets, {Letter::C, 4}).value() == Approx(261.6256).epsilon(1e-6));
}

TEST_CASE("tuning_targets: temperament and offsets add", "[live]")
{
    TuningRequest request;
    request.temperament = [](int key) { return Cents{key % 12 == 11 ? -3.91 : 0.0}; };
    request.offsets = {{{Letter::C, 4}, Cents{2.0}}};
    const auto targets = *tuning_targets(pedal_harp(), request);
    CHECK(interval(Hertz{246.94165}, target_of(targets, {Letter::C, 4})).value() ==
          Approx(-1.91).margin(1e-3));
}

TEST_CASE("tuning_targets: what cannot be is said", "[live]")
{
    CHECK_FALSE(tuning_targets(pedal_harp(), {.a4 = Hertz{380.0}}));
    CHECK_FALSE(tuning_targets(pedal_harp(), {.a4 = Hertz{480.0}}));
    CHECK_FALSE(tuning_targets(pedal_harp(), {.offsets = {{{Letter::C, 4}, Cents{60.0}}}}));
    CHECK_FALSE(tuning_targets(pedal_harp(), {.offsets = {{{Letter::B, 7}, Cents{1.0}}}}));
    const auto lever = *make_layout({.kind = HarpKind::lever, .string_count = 34});
    CHECK_FALSE(tuning_targets(lever, {.tuned_in = TunedIn::naturals}));
}

TEST_CASE("a4_from_tone: any A will do, anything else will not", "[live]")
{
    CHECK(a4_from_tone(Hertz{221.0})->value() == Approx(442.0));
    CHECK(a4_from_tone(Hertz{415.0})->value() == Approx(415.0));
    CHECK(a4_from_tone(Hertz{1760.0})->value() == Approx(440.0));
    CHECK_FALSE(a4_from_tone(Hertz{523.25})); // a C
    CHECK_FALSE(a4_from_tone(Hertz{349.23})); // an F
}
