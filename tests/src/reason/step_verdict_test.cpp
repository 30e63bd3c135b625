// SPDX-License-Identifier: MIT
#include "reason/step_verdict.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;

namespace {

auto place(const char* name)
{
    return *place_from_harp_name(name);
}

StepVerdict judged(const char* name, double cents, double uncertainty_cents,
                   std::optional<Step> step = Step::lower)
{
    return judge(place(name), step, {cents, uncertainty_cents}, ToleranceSettings{});
}

} // namespace

// The project's own choice (no open source states a tolerance): 5 cents either side, octaves 0 and 1 -3..+8.
TEST_CASE("tolerance: the top two octaves may be wide", "[reason]")
{
    CHECK(judged("2E", 6.5, 0.3).conformity == Conformity::out);
    CHECK(judged("1F", 6.5, 0.3).conformity == Conformity::within);
    CHECK(judged("0G", 6.5, 0.3).conformity == Conformity::within);
    CHECK(judged("1F", -4.0, 0.3).conformity == Conformity::out);
    CHECK(judged("2E", -4.0, 0.3).conformity == Conformity::within);
}

TEST_CASE("tolerance: changed settings are no longer the project's own choice", "[reason]")
{
    ToleranceSettings settings;
    CHECK(settings.is_project_default());
    settings.by_harp_octave[3] = {-2.0, 2.0};
    CHECK_FALSE(settings.is_project_default());
    CHECK(tolerance_of(settings, place("3C"), Step::upper) == ToleranceBand{-2.0, 2.0});
    CHECK(tolerance_of(settings, place("3C"), std::nullopt) == ToleranceBand{-3.0, 3.0});
}

TEST_CASE("verdict: watched beyond half of the tolerance, until it is out", "[reason]")
{
    CHECK_FALSE(judged("4C", 2.3, 0.1).watch);
    CHECK(judged("4C", 2.7, 0.1).watch);
    CHECK(judged("4C", -4.0, 0.1).watch);
    CHECK_FALSE(judged("4C", 8.0, 0.1).watch); // out: more than watched
}

TEST_CASE("verdict: more plucks are asked for where they would decide", "[reason]")
{
    // 0.7 cent from the limit: decided at u = 0.7 / 1.645 = 0.4255; (0.6 / 0.4255)^2 = 1.99.
    const auto soon = judged("4C", 4.3, 0.6);
    REQUIRE(soon.conformity == Conformity::not_proven);
    CHECK(soon.plucks_factor == 2);
    // 0.1 cent from the limit: (0.6 / 0.0608)^2 = 97 times the plucks.
    CHECK_FALSE(judged("4C", 4.9, 0.6).plucks_factor);
    CHECK(judged("4C", 1.0, 0.6).plucks_factor == 1);
}

TEST_CASE("verdict: worst first, by the share of the tolerance used up", "[reason]")
{
    const std::vector<StepError> steps{{place("4C"), Step::lower, 3.0, 0.3, 8.0},
                                       {place("1C"), Step::lower, -2.9, 0.3, 8.0}, // of 3
                                       {place("1D"), Step::upper, 6.0, 0.3, 8.0},  // of 8
                                       {place("4E"), Step::upper, -12.0, 0.3, 8.0}};
    const std::vector<WholeStepError> whole{{place("4E"), -11.0, 0.3}};
    const auto verdicts = judge_steps(steps, whole, {});
    REQUIRE(verdicts.size() == 5);
    CHECK(verdicts[0].place == place("4E"));
    CHECK(verdicts[1].place == place("1C"));
    CHECK(verdicts[2].place == place("1D"));
    CHECK(verdicts[3].place == place("4C"));
    CHECK_FALSE(verdicts[4].step.has_value());
    CHECK(verdicts[4].conformity == Conformity::out); // beyond 7.5
}

TEST_CASE("pluck again: doubtful and missing strings with their positions", "[reason]")
{
    const auto layout = make_layout({.string_count = 40}).value();
    std::vector<StepVerdict> verdicts;
    for (const auto& string : layout.strings)
        for (const Step step : {Step::lower, Step::upper})
            verdicts.push_back(judge(string.place, step, {0.5, 0.3}, {}));
    CHECK(pluck_again(layout, verdicts).empty());

    for (auto& verdict : verdicts)
        if (verdict.place == place("3A") && verdict.step == Step::upper)
            verdict = judge(place("3A"), Step::upper, {4.3, 0.6}, {});
    std::erase_if(verdicts, [](const StepVerdict& v) { return v.place == place("5C"); });
    const auto again = pluck_again(layout, verdicts);
    REQUIRE(again.size() == 2);
    CHECK(again[0].place == place("5C"));
    CHECK(again[0].missing);
    CHECK(again[0].positions == std::vector{Position::flat, Position::natural, Position::sharp});
    CHECK(again[1].place == place("3A"));
    CHECK_FALSE(again[1].missing);
    CHECK(again[1].positions == std::vector{Position::natural, Position::sharp});
    CHECK(again[1].plucks_factor == 2);
}
