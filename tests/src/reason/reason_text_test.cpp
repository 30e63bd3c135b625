// SPDX-License-Identifier: MIT
#include "reason/cause_text.hpp"
#include "reason/drift_text.hpp"
#include "reason/tune_text.hpp"
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace harpkeep;

namespace {

auto place(const char* name)
{
    return *place_from_harp_name(name);
}

bool says(const std::vector<std::string>& sentences, const std::string& part)
{
    for (const auto& sentence : sentences)
        if (sentence.find(part) != std::string::npos) return true;
    return false;
}

CauseEffect effect(CauseKind kind, Step step, double cents)
{
    return {.kind = kind,
            .step = step,
            .cents = cents,
            .lower_cents = cents - 0.7,
            .upper_cents = cents + 0.7,
            .probability = 0.9988,
            .rests_on = 6};
}

Fault pedal_fault()
{
    return {.kind = CauseKind::pedal,
            .pedal = Letter::F,
            .pattern = StepPattern::upper_only,
            .effects = {effect(CauseKind::pedal, Step::upper, 6.8)},
            .greatest_cents = 6.8};
}

Fault string_fault()
{
    return {.kind = CauseKind::string,
            .place = place("3G"),
            .pattern = StepPattern::natural_high,
            .effects = {effect(CauseKind::string, Step::lower, 9.0),
                        effect(CauseKind::string, Step::upper, -9.1)},
            .greatest_cents = -9.1};
}

std::string day_name(int day)
{
    return fmt::format("day {}", day);
}

std::string month_name(int months)
{
    return fmt::format("month {}", months);
}

} // namespace

TEST_CASE("words: lists and bands", "[reason]")
{
    CHECK(listed(std::vector<std::string>{"3F"}) == "3F");
    CHECK(listed(std::vector<std::string>{"3F", "2C"}) == "3F and 2C");
    CHECK(listed(std::vector<std::string>{"3F", "2C", "1A"}) == "3F, 2C and 1A");
    CHECK(band_words({-5.0, 5.0}) == "−5 to +5 cents");
    CHECK(band_words({-2.5, 8.0}) == "−2.5 to +8 cents");
    CHECK(step_words(HarpKind::pedal, Step::upper) == "natural to sharp");
    CHECK(step_words(HarpKind::lever, Step::lower) == "open to engaged");
}

TEST_CASE("words: nothing is rounded up to certainty", "[reason][regression]")
{
    CHECK(certainty_words(0.9999) == "over 99.9 % certain");
    CHECK(certainty_words(0.9988) == "99.8 % certain");
    CHECK(certainty_words(0.967) == "96 % certain");
}

TEST_CASE("verdict text: a step with its interval, its limits and its judgement", "[reason]")
{
    const auto out = judge(place("4C"), Step::lower, {6.2, 0.3}, {});
    CHECK(step_sentence(out, HarpKind::pedal) ==
          "4C flat to natural: +6.2 ± 0.6 cents, out of tolerance (−5 to +5 cents).");
    const auto open = judge(place("4C"), Step::upper, {4.9, 0.5}, {});
    CHECK(step_sentence(open, HarpKind::pedal) == "4C natural to sharp: +4.9 ± 1.0 cents, not proven (−5 to "
                                                  "+5 cents), 58 % to be within; to be watched; it "
                                                  "lies on the limit, so more plucks would hardly decide.");
}

TEST_CASE("verdict text: what to pluck again", "[reason]")
{
    CHECK(pluck_again_sentence({place("3A"), {Position::natural, Position::sharp}, false, 3}) ==
          "Pluck 3A again in natural and sharp, about 3 times as often as before.");
    CHECK(pluck_again_sentence({place("5C"), {Position::flat, Position::natural}, true, 1}) ==
          "5C was not measured: sound it in flat and natural.");
}

TEST_CASE("verdict text: the project's own tolerance is named as such", "[reason]")
{
    ToleranceSettings settings;
    CHECK(tolerance_sentence(settings).find("this program's own choice") != std::string::npos);
    settings.standard = {-4.0, 4.0};
    CHECK(tolerance_sentence(settings).find("own choice") == std::string::npos);
    CHECK(tolerance_sentence(settings).find("−4 to +4 cents") != std::string::npos);
}

TEST_CASE("verdict text: every reason has its sentence", "[reason]")
{
    for (int kind = 0; kind <= static_cast<int>(ReasonKind::many_not_proven); ++kind) {
        Reason reason{.kind = static_cast<ReasonKind>(kind),
                      .count = 2,
                      .of = 80,
                      .pedal = Letter::A,
                      .place = place("2D"),
                      .cause = CauseKind::slope,
                      .cents = 3.0,
                      .lower_cents = 2.0,
                      .upper_cents = 4.0,
                      .probability = 0.7,
                      .days = 400,
                      .months = 6,
                      .rests_on = 6};
        const auto sentence = reason_sentence(reason, HarpKind::pedal);
        CAPTURE(kind, sentence);
        CHECK(sentence.size() > 20);
        CHECK(sentence.back() == '.');
    }
}

TEST_CASE("cause text: a pedal, what it rests on and what it points to", "[reason]")
{
    CHECK(fault_sentence(pedal_fault(), HarpKind::pedal) ==
          "The F pedal is off: natural to sharp +6.8 cents (95 %: +6.1 to +7.5); seen on 6 strings, 99.8 % "
          "certain. "
          "All strings of one pedal off the same way point to the pedal, its rod or its adjustment, not to "
          "single "
          "discs.");
}

TEST_CASE("cause text: a string with its millimetres, which are no instruction", "[reason]")
{
    const auto text = fault_sentence(string_fault(), HarpKind::pedal, {{place("3G"), 500.0_mm}});
    CHECK(text.find("3G is off by itself, the natural itself high") == 0);
    // Sharp sounds 500 / 2^(2/12) = 445.4 mm; times ln 2 / 1200.
    CHECK(text.find("Where 445 mm sound, one cent is 0.26 mm of length by geometry alone") !=
          std::string::npos);
    const auto all = cause_sentences(CauseReport{.faults = {string_fault()}}, {}, 80, HarpKind::pedal);
    CHECK(all.back() == std::string(mechanism_caution));
    for (const auto& sentence : all)
        for (const char* verb : {"bend", "file ", "tighten", "loosen"})
            CHECK(sentence.find(verb) == std::string::npos);
}

TEST_CASE("cause text: too little data says what would suffice", "[reason]")
{
    const auto few = cause_sentences(std::nullopt, {}, 9, HarpKind::pedal);
    REQUIRE(few.size() == 1);
    CHECK(few[0] ==
          "9 steps measured: causes can be told apart from 14 on, best with 3 strings of each pedal.");
    const auto unclear = cause_sentences(CauseReport{.unclear_pedals = {Letter::D}}, {}, 60, HarpKind::pedal);
    CHECK(says(unclear, "Of D fewer than 3 strings were measured"));
}

TEST_CASE("cause text: a false or new string comes before its discs", "[reason]")
{
    const std::vector<StringCondition> conditions{{.kind = ConditionKind::false_string,
                                                   .place = place("3G"),
                                                   .value = 0.0004,
                                                   .rests_on = 3,
                                                   .positions_affected = 3,
                                                   .beat_rate_hz = 1.7}};
    const auto all =
        cause_sentences(CauseReport{.faults = {string_fault()}}, conditions, 80, HarpKind::pedal);
    CHECK(says(all, "The string sounds false: it comes before its discs."));
    CHECK(says(all, "beating 1.7 times a second"));
}

TEST_CASE("cause text: a string that comes back low may be new, and says so", "[reason]")
{
    const StringCondition low{.kind = ConditionKind::no_return,
                              .place = place("2D"),
                              .value = -6.0,
                              .lower = -7.0,
                              .upper = -5.0,
                              .rests_on = 4};
    const StringCondition fresh{.kind = ConditionKind::settling, .place = place("2D"), .value = 5.0};
    const auto unknown = cause_sentences(CauseReport{}, std::vector{low}, 80, HarpKind::pedal);
    CHECK(says(unknown, "note the day when it was put on"));
    const auto known = cause_sentences(CauseReport{}, std::vector{fresh, low}, 80, HarpKind::pedal);
    CHECK(says(known, "The string is new: it still stretches"));
    StringCondition high = low;
    high.value = 6.0;
    CHECK_FALSE(says(cause_sentences(CauseReport{}, std::vector{high}, 80, HarpKind::pedal), "new string"));
}

TEST_CASE("drift text: trend, jump and what they rest on", "[reason]")
{
    const StepDrift drift{.place = place("4C"),
                          .checks = 9,
                          .first_day = 0,
                          .last_day = 1100,
                          .trend_cents_per_year = {1.2, 0.25},
                          .jumps = {{{HarpEventKind::visit, 500, std::nullopt}, -4.2, 0.3}}};
    CHECK(
        drift_sentence(drift, HarpKind::pedal, day_name) ==
        "4C flat to natural: +1.2 ± 0.5 cents a year, from 9 checks over 3.0 years; −4.2 ± 0.6 cents at the "
        "visit of day 500.");
}

TEST_CASE("drift text: forecast with its months, or what would make one", "[reason]")
{
    LeavingForecast forecast{.place = place("4C"),
                             .now = {0, 3.1, 0.3},
                             .trend_cents_per_year = {1.2, 0.25},
                             .checks = 9,
                             .span_days = 1100};
    forecast.left_by_month.assign(24, 0.95);
    forecast.early_month = 4;
    forecast.middle_month = 11;
    forecast.late_month = 20;
    CHECK(
        forecast_sentence(forecast, HarpKind::pedal, day_name, month_name) ==
        "4C flat to natural: +3.1 ± 0.6 cents today, +1.2 ± 0.5 cents a year; as likely as not it becomes "
        "too wide "
        "by month 11 (1 in 10 by month 4, 9 in 10 by month 20), from 9 checks over 3.0 years, if nothing is "
        "done.");
    forecast.gap = ForecastGap{.checks = 1, .span_days = 0, .checks_wanted = 2, .earliest_day = 180};
    forecast.checks = 1;
    forecast.span_days = 0;
    CHECK(forecast_sentence(forecast, HarpKind::pedal, day_name, month_name) ==
          "4C flat to natural: 1 check is too few for a forecast; 2 more checks, the last on day 180 or "
          "later, would do.");
    forecast.gap->checks_wanted = 1;
    CHECK(says({forecast_sentence(forecast, HarpKind::pedal, day_name, month_name)},
               "; 1 more check on day 180 or later would do."));
}

TEST_CASE("tune text: a line to tune by", "[reason]")
{
    const TunedString string{
        .place = place("4C"),
        .target_hz = 246.4882,
        .offset_cents = -3.2,
        .used = {{.position = Position::natural, .weight = 1.0, .before_cents = 6.4, .after_cents = 3.2}}};
    CHECK(tuning_line(string) ==
          "4C flat: 246.49 Hz, −3.2 cents from equal temperament; then off by at most 3.2 cents "
          "in what is used.");
}

TEST_CASE("tune text: an enharmonic pair in cents and beats", "[reason]")
{
    CHECK(enharmonic_sentence({.lower_place = place("4C"),
                               .upper_place = place("4D"),
                               .frequency_hz = 277.18,
                               .cents = -5.0,
                               .uncertainty_cents = 0.4,
                               .beats_per_second = 0.8,
                               .rests_on = 2}) == "4C sharp and 4D flat: the second is −5.0 ± 0.8 cents from "
                                                  "the first, 0.8 beats a second at 277.18 Hz, from 2 "
                                                  "readings.");
}

TEST_CASE("tune text: a setting with its worst note", "[reason]")
{
    SettingUse use{.setting = pedal_setting_from_text("D C# B E F# G A").value(), .name = "D major"};
    use.worst = {.letter = Letter::C,
                 .alteration = 1,
                 .greatest_cents = -14.5,
                 .uncertainty_cents = 0.3,
                 .worst = place("3C")};
    use.conformity = Conformity::out;
    CHECK(setting_sentence(use) ==
          "D major (D C# B | E F# G A): out of tolerance, greatest error −14.5 ± 0.6 cents at 3C sharp.");
}
