// SPDX-License-Identifier: MIT
#include "reason/break_risk.hpp"

#include "reason/replacement.hpp"
#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

const synthetic::School& school()
{
    static const auto drawn = [] {
        std::mt19937_64 random{61};
        return synthetic::draw_school(random, {.harps = 4, .years = 6});
    }();
    return drawn;
}

const LifeModel& model()
{
    static const auto learnt = learn_lives(school().observed).value();
    return learnt;
}

StringInUse string_at(const char* place, double age_days)
{
    const auto at = *place_from_harp_name(place);
    return {.harp = "Heron", .place = at, .material = synthetic::material_at(at), .age_days = age_days};
}

} // namespace

TEST_CASE("break_risks: come near the chances of the law that was put in", "[reason]")
{
    const auto report = break_risks(model(), school().in_use, 365.25);
    double truth = 0.0;
    for (std::size_t i = 0; i < school().in_use.size(); ++i)
        truth += stats::weibull_failure_within({1.6, school().truth_scales[i]}, *school().in_use[i].age_days,
                                               365.25);
    CHECK(report.expected_breaks.limits.lower < truth);
    CHECK(truth < report.expected_breaks.limits.upper);
    CHECK(report.strings.size() == school().in_use.size());
    CHECK(report.any_break.value > 0.9999); // four harps, a year
}

TEST_CASE("break_risks: are sorted, grow with time and age, and add up", "[reason][property]")
{
    const std::vector strings{string_at("1C", 100), string_at("1C", 700), string_at("4C", 700),
                              string_at("6C", 700)};
    const auto month = break_risks(model(), strings, 30), year = break_risks(model(), strings, 365);
    double sum = 0.0, none = 1.0;
    for (std::size_t i = 0; i < strings.size(); ++i) {
        if (i > 0) CHECK(month.strings[i - 1].chance.value >= month.strings[i].chance.value);
        sum += month.strings[i].chance.value;
        none *= 1.0 - month.strings[i].chance.value;
        CHECK(month.strings[i].chance.limits.lower <= month.strings[i].chance.value);
        CHECK(month.strings[i].chance.value <= month.strings[i].chance.limits.upper);
    }
    CHECK(month.strings.front().string.age_days == 700.0); // the old 1C before the new one
    CHECK(month.strings.back().string.material == "steel");
    CHECK(month.expected_breaks.value == Approx(sum).epsilon(1e-9)); // a mean of sums is a sum of means
    CHECK(month.any_break.value ==
          Approx(1.0 - none).epsilon(0.02)); // shared unknowns correlate them a little
    CHECK(year.any_break.value > month.any_break.value);
}

TEST_CASE("break_risks: unknown age and unknown group are said", "[reason]")
{
    auto old = string_at("1C", 0);
    old.age_days.reset();
    old.watched_days = 400;
    auto strange = string_at("3C", 100);
    strange.material = "fluorocarbon";
    const auto report = break_risks(model(), std::vector{old, strange}, 100);
    const auto& first = report.strings[0].age_unknown ? report.strings[0] : report.strings[1];
    const auto& second = report.strings[0].age_unknown ? report.strings[1] : report.strings[0];
    CHECK(first.chance.value ==
          Approx(break_risks(model(), std::vector{string_at("1C", 400)}, 100).strings[0].chance.value));
    CHECK_FALSE(second.group_evidence);
    CHECK(second.chance.limits.upper / second.chance.limits.lower > 10.0); // little is known of it
}

TEST_CASE("learn_lives: says why nothing can be learnt", "[reason]")
{
    const std::vector<ObservedString> sound{{.harp = "Wren", .material = "gut", .age_at_exit_days = 100}};
    CHECK(learn_lives(sound).error() == stats::NoFit::no_failures);
}

TEST_CASE("plan_replacements: takes what is old and thin, leaves what is sound", "[reason]")
{
    const std::vector strings{string_at("1C", 900), string_at("1D", 30), string_at("4C", 400),
                              string_at("6C", 900)};
    const auto plan = plan_replacements(model(), strings, {.days_until = 60, .days_long = 3});
    REQUIRE(plan.lines.size() == 4);
    CHECK(plan.lines[0].advice == ReplacementAdvice::replace);
    CHECK(harp_name(plan.lines[0].risk.string.place) == "1C");
    CHECK(plan.lines[0].relief > 0.0);
    for (std::size_t i = 1; i < 4; ++i) CHECK(plan.lines[i].advice == ReplacementAdvice::leave);
    CHECK(plan.any_break_after.value < plan.any_break_as_is.value);
    CHECK_FALSE(plan.settles_too_late);
    CHECK(plan_replacements(model(), strings, {.days_until = 10}).settles_too_late);
}

TEST_CASE("plan_replacements: does not replace what breaks by accident alone", "[reason]")
{
    std::mt19937_64 random{62};
    const auto accidents = synthetic::draw_school(random, {.harps = 4, .years = 6, .shape = 1.0});
    const auto learnt = learn_lives(accidents.observed).value();
    const auto plan = plan_replacements(learnt, std::vector{string_at("0G", 500)}, {.days_until = 180});
    CHECK(plan.lines[0].advice == ReplacementAdvice::no_help);
    CHECK(plan.any_break_after.value == Approx(plan.any_break_as_is.value)); // nothing was replaced
}
