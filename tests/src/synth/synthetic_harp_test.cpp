// SPDX-License-Identifier: MIT
#include "synth/synthetic_harp.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

HarpLayout concert_layout()
{
    return make_layout({.kind = HarpKind::pedal, .string_count = 47}).value();
}

double cents(double from_hz, double to_hz)
{
    return 1200.0 * std::log2(to_hz / from_hz);
}

} // namespace

TEST_CASE("synthetic harp: without errors it sounds equal temperament", "[synth]")
{
    const auto harp = make_synthetic_harp(
        concert_layout(), {.open_offset_sd_cents = 0.0, .step_error_sd_cents = 0.0, .curve_sd = 0.0});
    const auto index = string_index_of(harp.layout, {Letter::A, 4}).value();
    CHECK(true_frequency_hz(harp, index, Position::natural) == Approx(440.0).epsilon(1e-13)); // rounding
    CHECK(partial_frequency_hz(string_in_position(harp, index, Position::natural), 1) ==
          Approx(440.0).epsilon(1e-13));
}

TEST_CASE("synthetic harp: what it renders has the steps it promises", "[synth][property]")
{
    const auto harp = make_synthetic_harp(
        concert_layout(), {.step_error_sd_cents = 5.0, .partial_deviation_sd_cents = 1.5, .seed = 11});
    for (std::size_t i = 2; i < harp.strings.size(); ++i) {
        CAPTURE(i);
        for (const Step step : {Step::lower, Step::upper}) {
            const auto [below, above] = positions_of_step(HarpKind::pedal, step);
            const double size_cents = cents(partial_frequency_hz(string_in_position(harp, i, below), 1),
                                            partial_frequency_hz(string_in_position(harp, i, above), 1));
            CHECK(size_cents - 100.0 ==
                  Approx(true_step_error_cents(harp, i, step)).margin(1e-9)); // rounding
        }
    }
}

TEST_CASE("synthetic harp: B rises as 1 / L^2, about 12 percent a semitone", "[synth]")
{
    const auto harp = make_synthetic_harp(concert_layout(), {.step_error_sd_cents = 0.0});
    const double flat = string_in_position(harp, 20, Position::flat).inharmonicity;
    const double sharp = string_in_position(harp, 20, Position::sharp).inharmonicity;
    CHECK(sharp / flat == Approx(std::exp2(4.0 / 12.0)).epsilon(1e-12)); // (2^(2/12))^2, rounding
}

TEST_CASE("synthetic harp: one string can be set off by itself", "[synth]")
{
    auto harp = make_synthetic_harp(concert_layout(), {.open_offset_sd_cents = 0.0});
    const double before_hz = true_frequency_hz(harp, 25, Position::sharp);
    set_open_offset(harp, 25, -50.0);
    CHECK(cents(before_hz, true_frequency_hz(harp, 25, Position::sharp)) ==
          Approx(-50.0).margin(1e-9)); // rounding
    CHECK(partial_frequency_hz(string_in_position(harp, 25, Position::flat), 1) ==
          Approx(true_frequency_hz(harp, 25, Position::flat)).epsilon(1e-13));
}

TEST_CASE("synthetic harp: the same seed gives the same harp, another seed another", "[synth][property]")
{
    const auto harp = [](std::uint64_t seed) {
        return make_synthetic_harp(concert_layout(), {.seed = seed});
    };
    CHECK(harp(3).strings[10].lower_error_cents == harp(3).strings[10].lower_error_cents);
    CHECK(harp(3).strings[10].lower_error_cents != harp(4).strings[10].lower_error_cents);
}
