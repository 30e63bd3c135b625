// SPDX-License-Identifier: MIT
#include "harp/expected_pitch.hpp"
#include "reason/tune_around.hpp"
#include "tests/support/planted_harp.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

PedalSetting setting(const char* text)
{
    return setting_from_text(text).value();
}

const TunedString& string_of(const TuneAroundResult& result, const char* name)
{
    const auto place = *place_from_harp_name(name);
    return *std::find_if(result.strings.begin(), result.strings.end(),
                         [&](const TunedString& s) { return s.place == place; });
}

PlantedHarp faulty_harp(std::uint64_t seed)
{
    Dice dice(seed);
    return plant(
        {.fewest_pedals = 3, .most_pedals = 3, .fewest_strings = 3, .most_strings = 3, .missing_share = 0.0},
        dice);
}

TuneAroundResult tuned(const PlantedHarp& harp, const TuneAroundRequest& request)
{
    return tune_around(harp.layout, harp.steps, harp.whole_steps, request);
}

/// The greatest or weighted mean square error of a string at an offset from where it was chosen.
double cost(const TunedString& string, double moved_cents, TuneGoal goal)
{
    double greatest = 0.0;
    double squares = 0.0;
    for (const auto& used : string.used) {
        const double error = *used.after_cents + moved_cents;
        greatest = std::max(greatest, std::abs(error));
        squares += used.weight * error * error;
    }
    return goal == TuneGoal::least_greatest ? greatest : squares;
}

} // namespace

TEST_CASE("tune around: one setting can be tuned pure", "[reason]")
{
    const auto harp = faulty_harp(1);
    const auto result = tuned(harp, {.settings = {{setting("E major")}}});
    CHECK(result.greatest_before.cents > 2.0);
    CHECK(result.greatest_after.cents == Approx(0.0).margin(1e-9)); // rounding
    CHECK(result.unknown_positions == 0);
}

TEST_CASE("tune around: no other offset is better", "[reason][twin]")
{
    const auto harp = faulty_harp(2);
    for (const TuneGoal goal : {TuneGoal::least_greatest, TuneGoal::least_mean_square}) {
        const auto result = tuned(harp, {.settings = {{setting("C major"), 5.0},
                                                      {setting("A flat major"), 2.0},
                                                      {setting("E major"), 1.0}},
                                         .goal = goal});
        for (const auto& string : result.strings) {
            const double chosen = cost(string, 0.0, goal);
            for (double moved = -12.0; moved <= 12.0; moved += 0.05)
                CHECK(cost(string, moved, goal) >= chosen - 1e-9); // rounding
        }
        CHECK(result.greatest_after.cents <= result.greatest_before.cents);
    }
}

TEST_CASE("tune around: uncertainty follows the steps' errors", "[reason][twin]")
{
    // Drawn: a string whose flat, natural and sharp are read with 0.3 cent each, by three equal settings.
    const auto layout = make_layout({}).value();
    const auto place = *place_from_harp_name("3D");
    const double reading = 0.3;
    const double step = reading * std::sqrt(2.0);
    const auto result_of = [&](double flat, double natural, double sharp) {
        return tune_around(layout,
                           std::vector<StepError>{{place, Step::lower, 4.0 + natural - flat, step, 9.0},
                                                  {place, Step::upper, -1.0 + sharp - natural, step, 9.0}},
                           std::vector<WholeStepError>{{place, 3.0 + sharp - flat, step}},
                           {.settings = {{setting("D")}, {setting("A flat")}, {setting("E major")}}});
    };
    // D natural is used by the first, D flat by the second, D sharp by the third.
    const auto stated = string_of(result_of(0, 0, 0), "3D");
    REQUIRE(stated.used.size() == 3);
    Dice dice(4);
    std::array<double, 3> squares{};
    double moved = 0.0;
    const int draws = 4000;
    for (int i = 0; i < draws; ++i) {
        const auto drawn = string_of(
            result_of(reading * dice.normal(), reading * dice.normal(), reading * dice.normal()), "3D");
        for (std::size_t k = 0; k < 3; ++k)
            squares[k] += std::pow(*drawn.used[k].after_cents - *stated.used[k].after_cents, 2);
        moved += std::pow(drawn.offset_cents - stated.offset_cents, 2);
    }
    for (std::size_t k = 0; k < 3; ++k) {
        CAPTURE(k);
        CHECK(stated.used[k].after_uncertainty_cents ==
              Approx(std::sqrt(squares[k] / draws)).epsilon(0.05)); // four times 1 / sqrt(2 * 4000)
    }
    CHECK(stated.moved_uncertainty_cents == Approx(std::sqrt(moved / draws)).epsilon(0.05)); // the same
}

TEST_CASE("tune around: weights pull the mean square, not the greatest", "[reason]")
{
    const auto layout = make_layout({}).value();
    const auto place = *place_from_harp_name("4G");
    const std::vector<StepError> steps{{place, Step::lower, 6.0, 0.3, 9.0}};
    const auto offset = [&](double natural_weight, TuneGoal goal) {
        return string_of(tune_around(layout, steps, {},
                                     {.settings = {{setting("C major"), natural_weight},
                                                   {setting("C flat major"), 1.0}},
                                      .goal = goal}),
                         "4G")
            .offset_cents;
    };
    CHECK(offset(1.0, TuneGoal::least_greatest) == Approx(-3.0));
    CHECK(offset(9.0, TuneGoal::least_greatest) == Approx(-3.0));
    CHECK(offset(1.0, TuneGoal::least_mean_square) == Approx(-3.0));
    CHECK(offset(9.0, TuneGoal::least_mean_square) == Approx(-5.4)); // nine tenths of 6
}

TEST_CASE("tune around: strings without discs are tuned to the note of the piece", "[reason]")
{
    const auto harp = faulty_harp(3);
    const auto result =
        tuned(harp, {.settings = {{setting("C major"), 3.0}, {setting("C flat major"), 1.0}}});
    const auto& low_c = string_of(result, "7C");
    CHECK(low_c.by_hand);
    CHECK(low_c.alteration == 0);
    CHECK(low_c.target_hz == Approx(32.7032).margin(5e-5)); // C1, last digit
    REQUIRE(result.impossible.size() == 2);                 // 7C and 7D flat
    CHECK(result.impossible[0].alteration == -1);
}

TEST_CASE("tune around: a perfect harp in an unequal temperament errs by its semitones", "[reason]")
{
    const auto layout = make_layout({}).value();
    const auto& young = *find_temperament("young-2");
    const auto deviations = deviations_cents(young);
    std::vector<StepError> steps;
    for (const auto& string : layout.strings)
        if (string.has_natural_disc)
            for (const Step step : {Step::lower, Step::upper})
                steps.push_back({string.place, step, 0.0, 0.2, 9.0});
    const auto result =
        tune_around(layout, steps, {},
                    {.settings = {{setting("C major")}, {setting("C flat major")}}, .temperament = young});
    // 4G: G flat (6 above C) and G (7): the tempered semitone differs from 100 by their deviations.
    const auto& g = string_of(result, "4G");
    const double difference = deviations[6] - deviations[7];
    REQUIRE(g.used.size() == 2);
    CHECK(*g.used[0].before_cents == Approx(0.0).margin(1e-9));        // flat: tuned there; rounding
    CHECK(*g.used[1].before_cents == Approx(difference).margin(1e-9)); // rounding
    CHECK(std::abs(*g.used[0].after_cents) == Approx(0.5 * std::abs(difference)).margin(1e-9)); // rounding
    // Where it is tuned: halfway, from equal temperament.
    CHECK(
        g.target_hz ==
        Approx(raised(equal_temperament(key_number(g.place, -1), 440.0_Hz), Cents{g.offset_cents}).value()));
}

TEST_CASE("tune around: positions never measured are counted, not guessed", "[reason]")
{
    auto harp = faulty_harp(5);
    const auto place = *place_from_harp_name("2A");
    std::erase_if(harp.steps, [&](const StepError& s) { return s.place == place; });
    std::erase_if(harp.whole_steps, [&](const WholeStepError& s) { return s.place == place; });
    const auto result = tuned(harp, {.settings = {{setting("C major")}, {setting("C flat major")}}});
    CHECK(result.unknown_positions == 1);
    const auto& a = string_of(result, "2A");
    CHECK(a.offset_cents == Approx(0.0)); // the flat is known: it stays where it belongs
    CHECK_FALSE(a.used[1].before_cents);
}

TEST_CASE("tune around: another A4 scales every target", "[reason][property]")
{
    const auto harp = faulty_harp(6);
    const std::vector<UsedSetting> settings{{setting("G major")}, {setting("F major")}};
    const auto a = tuned(harp, {.settings = settings});
    const auto b = tuned(harp, {.settings = settings, .a4_hz = 442.0});
    for (std::size_t i = 0; i < a.strings.size(); ++i)
        CHECK(b.strings[i].target_hz / a.strings[i].target_hz ==
              Approx(442.0 / 440.0).epsilon(1e-12)); // rounding
}
