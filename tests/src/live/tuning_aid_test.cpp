// SPDX-License-Identifier: MIT
#include "live/tuning_aid.hpp"

#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;

namespace {

constexpr StringPlace c4{Letter::C, 4};
constexpr StringPlace d4{Letter::D, 4};
constexpr StringPlace e4{Letter::E, 4};

std::vector<TuningTarget> three_targets()
{
    const auto layout = *make_layout({.kind = HarpKind::pedal, .lowest = c4, .highest = e4});
    return *tuning_targets(layout, {});
}

/// Somebody at the pins: plucks a string and lets it sound at one pitch or along a way.
struct Tuner {
    TuningAid& aid;
    double time_s = 0.0;
    int plucks = 0;

    std::vector<TuningOutcome> sound(const TuningTarget& target, double from_cents, double to_cents,
                                     double seconds = 1.5)
    {
        std::vector<TuningOutcome> outcomes;
        const int number = plucks++;
        aid.handle(PluckBegan{number, Seconds{time_s}});
        PluckMeasurement estimate;
        estimate.frequency_hz = raised(target.frequency, Cents{from_cents}).value();
        estimate.uncertainty_cents = 0.3;
        time_s += 0.3;
        outcomes.push_back(aid.handle(PluckEstimated{number, Seconds{time_s}, estimate}));
        for (double t = 0.05; t < seconds; t += 0.05) {
            time_s += 0.05;
            const double cents = from_cents + (to_cents - from_cents) * std::min(1.0, 2.0 * t / seconds);
            outcomes.push_back(
                aid.follow(Seconds{time_s}, raised(target.frequency, Cents{cents}), Cents{0.2}));
        }
        aid.handle(PluckEnded{number, Seconds{time_s}, estimate});
        return outcomes;
    }
};

bool any_done(const std::vector<TuningOutcome>& outcomes)
{
    return std::any_of(outcomes.begin(), outcomes.end(),
                       [](const TuningOutcome& o) { return o.done.has_value(); });
}

} // namespace

TEST_CASE("tuning aid: knows the nearest string and how far it is", "[live]")
{
    TuningAid aid{three_targets()};
    Tuner tuner{aid};
    tuner.sound(aid.targets()[1], -12.0, -12.0);
    REQUIRE(aid.view().target);
    CHECK(aid.view().target->place == d4);
    CHECK(aid.view().pitch->deviation.value() == Approx(-12.0).margin(0.2));
    CHECK(aid.view().done == 0);
}

TEST_CASE("tuning aid: a string turned into tune and staying there is done", "[live]")
{
    TuningAid aid{three_targets()};
    Tuner tuner{aid};
    CHECK(any_done(tuner.sound(aid.targets()[0], -20.0, 0.2, 3.0)));
    CHECK(aid.view().done == 1);
    CHECK(aid.strings()[0].when_done->value() == Approx(0.2).margin(0.2));
}

TEST_CASE("tuning aid: passing through its pitch does not make a string done", "[live]")
{
    TuningAid aid{three_targets()};
    Tuner tuner{aid};
    CHECK_FALSE(any_done(tuner.sound(aid.targets()[0], -20.0, 20.0, 3.0)));
}

TEST_CASE("tuning aid: a chosen string is kept to, however far off it is", "[live]")
{
    TuningAid aid{three_targets()};
    aid.choose(e4);
    Tuner tuner{aid};
    tuner.sound(aid.targets()[2], -180.0, -180.0); // sounds near the string below
    CHECK(aid.view().target->place == e4);
    CHECK(aid.view().pitch->deviation.value() == Approx(-180.0).margin(0.2));
    aid.choose(std::nullopt);
    tuner.sound(aid.targets()[2], -180.0, -180.0);
    CHECK(aid.view().target->place == d4);
}

TEST_CASE("tuning aid: a wrong first guess of the string is given up", "[live]")
{
    TuningAid aid{three_targets()};
    PluckMeasurement estimate;
    estimate.uncertainty_cents = 0.3;
    aid.handle(PluckBegan{0, 0_s});
    estimate.frequency_hz = aid.targets()[0].frequency.value();
    aid.handle(PluckEstimated{0, Seconds{0.2}, estimate});
    estimate.frequency_hz = aid.targets()[2].frequency.value();
    aid.handle(PluckEstimated{0, Seconds{0.3}, estimate});
    CHECK(aid.view().target->place == e4);
}

TEST_CASE("tuning aid: the second pass shows which strings sank", "[live]")
{
    TuningAid aid{three_targets()};
    Tuner tuner{aid};
    std::vector<TuningOutcome> last;
    for (const TuningTarget& target : aid.targets()) last = tuner.sound(target, 0.0, 0.0);
    CHECK(std::any_of(last.begin(), last.end(), [](const TuningOutcome& o) { return o.pass_complete; }));

    aid.begin_next_pass();
    CHECK(aid.view().done == 0);
    const auto sunk = tuner.sound(aid.targets()[0], -4.0, -4.0);
    CHECK(std::any_of(sunk.begin(), sunk.end(), [](const TuningOutcome& o) { return o.sunk == c4; }));
    CHECK(aid.strings()[0].sank->value() == Approx(4.0).margin(0.2));
    tuner.sound(aid.targets()[1], -0.8, -0.8);
    CHECK_FALSE(aid.strings()[1].sank);
    CHECK(aid.view().done == 1);
}

TEST_CASE("tuning aid: a string that left its pitch again is not done any more", "[live]")
{
    TuningAid aid{three_targets()};
    Tuner tuner{aid};
    tuner.sound(aid.targets()[0], 0.0, 0.0);
    REQUIRE(aid.view().done == 1);
    tuner.sound(aid.targets()[0], -3.0, -3.0);
    CHECK(aid.view().done == 0);
}

TEST_CASE("tuning aid: an uncertain pitch is shown but proves nothing", "[live]")
{
    TuningAid aid{three_targets()};
    PluckMeasurement estimate;
    estimate.frequency_hz = aid.targets()[0].frequency.value();
    estimate.uncertainty_cents = 3.0;
    aid.handle(PluckBegan{0, 0_s});
    TuningOutcome outcome;
    for (int k = 0; k < 5; ++k) outcome = aid.handle(PluckEstimated{0, Seconds{0.4 + 0.4 * k}, estimate});
    CHECK(aid.view().pitch);
    CHECK_FALSE(outcome.done);
    CHECK_FALSE(aid.strings()[0].deviation);
}
