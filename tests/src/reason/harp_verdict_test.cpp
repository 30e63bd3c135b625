// SPDX-License-Identifier: MIT
#include "reason/harp_verdict.hpp"
#include "reason/verdict_text.hpp"
#include "tests/support/planted_harp.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

HarpEvidence evidence_of(const PlantedHarp& harp)
{
    HarpEvidence evidence{.steps = judge_steps(harp.steps, harp.whole_steps, {}),
                          .causes = find_causes(harp.layout, harp.steps, harp.whole_steps)};
    for (const auto& string : harp.layout.strings)
        evidence.steps_expected += static_cast<int>(steps_of(harp.layout.kind, string).size());
    return evidence;
}

PlantedHarp harp_with(const PlantingSettings& settings, std::uint64_t seed = 1)
{
    Dice dice(seed);
    return plant(settings, dice);
}

bool has_reason(const HarpVerdict& verdict, ReasonKind kind)
{
    return std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                       [&](const Reason& reason) { return reason.kind == kind; });
}

/// One string off by so much in its lower step, the rest sound.
PlantedHarp one_string_off(double cents)
{
    auto harp = harp_with({.missing_share = 0.0});
    for (auto& step : harp.steps)
        if (step.place == *place_from_harp_name("3C") && step.step == Step::lower) step.error_cents += cents;
    return harp;
}

} // namespace

TEST_CASE("harp verdict: a sound harp needs nobody", "[reason]")
{
    auto evidence = evidence_of(harp_with({}));
    evidence.days_since_visit = 200;
    const auto verdict = judge_harp(evidence);
    CHECK(verdict.urgency == Urgency::not_needed);
    CHECK(verdict.expected == 90);
    CHECK(verdict.measured + 20 > 72); // a tenth of the readings is missing
    CHECK(verdict.out == 0);
    REQUIRE(verdict.reasons.size() == 3);
    CHECK(verdict.reasons[0].kind == ReasonKind::all_within);
    CHECK(has_reason(verdict, ReasonKind::no_fault_found));
    CHECK(has_reason(verdict, ReasonKind::visit_recent));
}

TEST_CASE("harp verdict: a pedal beyond the tolerance calls now, and is the first reason", "[reason]")
{
    const auto harp = harp_with({.fewest_pedals = 1, .most_pedals = 1, .least_pedal_cents = 8.0});
    const auto verdict = judge_harp(evidence_of(harp));
    CHECK(verdict.urgency == Urgency::call_now);
    CHECK(verdict.reasons[0].kind == ReasonKind::pedal_off);
    CHECK(verdict.reasons[0].pedal == harp.faults[0].pedal);
    CHECK(verdict.reasons[0].lower_cents < verdict.reasons[0].cents);
}

TEST_CASE("harp verdict: one string out of tolerance waits for the next visit", "[reason]")
{
    const auto verdict = judge_harp(evidence_of(one_string_off(9.0)));
    CHECK(verdict.urgency == Urgency::next_visit);
    CHECK(has_reason(verdict, ReasonKind::string_off));
    CHECK(has_reason(verdict, ReasonKind::steps_out));
}

TEST_CASE("harp verdict: a false or new string does not call the technician", "[reason]")
{
    const auto kind = GENERATE(ConditionKind::false_string, ConditionKind::settling);
    auto evidence = evidence_of(one_string_off(9.0));
    evidence.conditions.push_back({.kind = kind, .place = *place_from_harp_name("3C")});
    const auto verdict = judge_harp(evidence);
    CHECK(verdict.urgency == Urgency::not_needed);
}

TEST_CASE("harp verdict: the harp as a whole is out, within, or not proven", "[reason]")
{
    const auto with_gaps = judge_harp(evidence_of(harp_with({})));
    CHECK(with_gaps.conformity == Conformity::not_proven); // steps that were not measured prove nothing
    CHECK(judge_harp(evidence_of(harp_with({.missing_share = 0.0}))).conformity == Conformity::within);
    const auto out = judge_harp(evidence_of(one_string_off(9.0)));
    CHECK(out.conformity == Conformity::out);
    CHECK(verdict_sentences(out, HarpKind::pedal)
              .back()
              .starts_with("The harp as a whole: out of tolerance. Of 90 steps 90 measured: "));
    CHECK(judge_harp(HarpEvidence{}).conformity == Conformity::not_proven);
}

TEST_CASE("harp verdict: half of the harp unmeasured cannot be judged", "[reason]")
{
    auto evidence = evidence_of(harp_with({}));
    evidence.steps.resize(20);
    const auto verdict = judge_harp(evidence);
    CHECK(verdict.urgency == Urgency::cannot_say);
    CHECK(verdict.reasons[0].kind == ReasonKind::few_measured);
}

TEST_CASE("harp verdict: too blurred to decide cannot be judged", "[reason]")
{
    auto harp = harp_with({});
    for (auto& step : harp.steps) step.uncertainty_cents = 4.0;
    const auto verdict = judge_harp(evidence_of(harp));
    CHECK(verdict.urgency == Urgency::cannot_say);
    CHECK(has_reason(verdict, ReasonKind::many_not_proven));
}

TEST_CASE("harp verdict: time since the last visit alone names the next one", "[reason]")
{
    auto evidence = evidence_of(harp_with({}));
    evidence.days_since_visit = 900;
    CHECK(judge_harp(evidence).urgency == Urgency::next_visit);
    CHECK(judge_harp(evidence, {.usual_days_between_visits = 1000}).urgency == Urgency::not_needed);
}

TEST_CASE("harp verdict: steps that will leave tolerance soon are named ahead", "[reason]")
{
    auto evidence = evidence_of(harp_with({}));
    LeavingForecast leaving{.place = *place_from_harp_name("2G"), .checks = 6};
    leaving.left_by_month.assign(24, 0.8);
    evidence.forecasts = {leaving, leaving};
    const auto verdict = judge_harp(evidence);
    CHECK(verdict.urgency == Urgency::next_visit);
    CHECK(verdict.reasons[0].kind == ReasonKind::leaving);
    CHECK(verdict.reasons[0].count == 2);
}

TEST_CASE("harp verdict: worse steps never make the call less urgent", "[reason][property]")
{
    Urgency last = Urgency::not_needed;
    for (const double cents : {0.0, 4.0, 7.0, 12.0}) {
        auto harp = harp_with({.missing_share = 0.0});
        for (auto& step : harp.steps)
            if (step.place.letter == Letter::G) step.error_cents += cents;
        const auto verdict = judge_harp(evidence_of(harp));
        CHECK(static_cast<int>(verdict.urgency) <= static_cast<int>(last)); // call_now is 0
        last = verdict.urgency;
    }
    CHECK(last == Urgency::call_now);
}
