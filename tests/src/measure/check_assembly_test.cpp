// SPDX-License-Identifier: MIT
#include "measure/check_assembly.hpp"

#include "heard_list.hpp"
#include "tests/support/whole_harp.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;
using namespace harpkeep::tests;
using Catch::Matchers::Contains;

namespace {

StringPlace place(const char* name)
{
    return place_from_harp_name(name).value();
}

HeardList passes_of(const HarpLayout& layout)
{
    HeardList list{.layout = layout};
    list.play(plan_pass_by_pass(layout, Direction::low_to_high));
    return list;
}

std::size_t index_of_pluck(const HeardList& list, const char* name, Position position)
{
    const auto found = std::find_if(list.truth.begin(), list.truth.end(), [&](const auto& planned) {
        return planned && list.layout.strings[planned->string_index].place == place(name) &&
               planned->position == position;
    });
    REQUIRE(found != list.truth.end());
    return static_cast<std::size_t>(found - list.truth.begin());
}

CheckResult assemble(const HeardList& list)
{
    return assemble_check(list.layout, list.plucks, {}, {});
}

bool is_missing(const CheckResult& check, const char* name, Position position)
{
    return std::any_of(check.missing.begin(), check.missing.end(), [&](const MissingReading& missing) {
        return missing.place == place(name) && missing.position == position;
    });
}

std::size_t steps_of_string(const CheckResult& check, const char* name)
{
    return static_cast<std::size_t>(
        std::count_if(check.steps.begin(), check.steps.end(),
                      [&](const StepError& step) { return step.place == place(name); }));
}

HarpLayout concert_harp()
{
    return make_layout({}).value();
}

} // namespace

TEST_CASE("assemble_check: a whole harp in tune gives every reading and step, and nothing to remark",
          "[measure]")
{
    const auto check = assemble(passes_of(concert_harp()));
    CHECK(check.readings.size() == 45 * 3 + 2); // 7C and 7D have no discs
    CHECK(check.steps.size() == 90);
    CHECK(check.whole_steps.size() == 45);
    CHECK(check.missing.empty());
    CHECK(check.ignored.empty());
    CHECK(check.remarks.empty());
    for (const auto& reading : check.readings) CHECK(reading.pluck.trusted());
    for (const auto& step : check.steps)
        CHECK(step.error_cents == Approx(0.0).margin(0.2)); // B as written does not rise with the step
}

TEST_CASE("assemble_check: a doubtful reading is shown, enters no step and is not called missing",
          "[measure]")
{
    auto list = passes_of(concert_harp());
    list.plucks[index_of_pluck(list, "3C", Position::natural)].measurement.doubts = {Doubt::too_noisy};
    const auto check = assemble(list);
    CHECK(check.steps.size() == 88);
    CHECK(steps_of_string(check, "3C") == 0);
    CHECK(check.whole_steps.size() == 45); // flat and sharp are good
    CHECK_FALSE(is_missing(check, "3C", Position::natural));
}

TEST_CASE("assemble_check: strings that did not sound are named, positions that did not are remarked on",
          "[measure]")
{
    HeardList list{.layout = concert_harp()};
    for (const auto& planned : plan_pass_by_pass(list.layout, Direction::low_to_high))
        if (planned.position != Position::sharp &&
            !(planned.position == Position::natural &&
              list.layout.strings[planned.string_index].place == place("2A")))
            list.pluck(planned);
    const auto check = assemble(list);
    REQUIRE(check.missing.size() == 1);
    CHECK(is_missing(check, "2A", Position::natural));
    REQUIRE(check.remarks.size() == 1);
    CHECK(check.remarks[0] == "No string was sounded in sharp.");
    CHECK(check.steps.size() == 44);
}

TEST_CASE("assemble_check: a place that is only guessed does not hide a missing string",
          "[measure][regression]")
{
    // String by string, C sharp and D flat are one pitch on a harp in tune: without one of them nobody can
    // tell which of them the other was.
    HeardList list{.layout = concert_harp()};
    const bool without_c = GENERATE(true, false);
    for (const auto& planned : plan_string_by_string(list.layout, Direction::low_to_high)) {
        const auto at = list.layout.strings[planned.string_index].place;
        if (without_c ? at == place("3C") && planned.position == Position::sharp
                      : at == place("3D") && planned.position == Position::flat)
            continue;
        list.pluck(planned);
    }
    const auto check = assemble(list);
    CHECK(is_missing(check, "3C", Position::sharp));
    CHECK(is_missing(check, "3D", Position::flat));
    CHECK(check.steps.size() == 88); // upper of 3C, lower of 3D
}

TEST_CASE("assemble_check: a pedal left where it was is named, and its strings are asked for", "[measure]")
{
    HeardList list{.layout = concert_harp()};
    for (const auto& planned : plan_pass_by_pass(list.layout, Direction::low_to_high)) {
        const bool left = planned.position == Position::natural &&
                          list.layout.strings[planned.string_index].place.letter == Letter::G;
        list.pluck(planned, left ? -100.0 : 0.0);
    }
    const auto check = assemble(list);
    REQUIRE_FALSE(check.remarks.empty());
    CHECK_THAT(check.remarks[0],
               Contains("The G strings sound a semitone too low where natural was expected") &&
                   Contains("was the G pedal in that position?"));
    for (const char* name : {"6G", "5G", "4G", "3G", "2G", "1G", "0G"}) {
        CHECK(steps_of_string(check, name) == 0);
        CHECK(is_missing(check, name, Position::natural));
    }
    CHECK(check.steps.size() == 90 - 14);
}

TEST_CASE("assemble_check: of three plucks of a string the odd one is doubted, of two both", "[measure]")
{
    const int plucks = GENERATE(2, 3);
    HeardList list{.layout = concert_harp()};
    for (const auto& planned : plan_pass_by_pass(list.layout, Direction::low_to_high)) {
        const bool repeated = planned.position == Position::flat &&
                              list.layout.strings[planned.string_index].place == place("3G");
        list.pluck(planned, repeated ? 12.0 : 0.0); // the first of them is off
        for (int i = 1; repeated && i < plucks; ++i) list.pluck(planned);
    }
    const auto check = assemble(list);
    int trusted = 0, of_string = 0;
    for (const auto& reading : check.readings) {
        if (reading.place != place("3G") || reading.position != Position::flat) continue;
        ++of_string;
        trusted += reading.pluck.trusted();
    }
    CHECK(of_string == plucks);
    CHECK(trusted == (plucks == 3 ? 2 : 0));
    CHECK(steps_of_string(check, "3G") == (plucks == 3 ? 2 : 1));
}

TEST_CASE("assemble_check: what fits nowhere is listed with the other sounds, in order of time", "[measure]")
{
    auto list = passes_of(concert_harp());
    list.sound(6000.0); // above every string
    const double last_s = list.time_s;
    const auto check =
        assemble_check(list.layout, list.plucks, {{0, last_s + 1.0, "knock"}, {0, 0.2, "talk"}}, {});
    REQUIRE(check.ignored.size() == 3);
    CHECK(check.ignored[0].reason == "talk");
    CHECK(check.ignored[1].reason == "fits no string of this harp in this order");
    CHECK(check.ignored[2].reason == "knock");
    CHECK(check.steps.size() == 90);
}

TEST_CASE("assemble_check: a harp that is off as a whole is told by how much", "[measure]")
{
    HeardList list{.layout = concert_harp(), .off_cents = [](std::size_t) { return -23.0; }};
    list.play(plan_pass_by_pass(list.layout, Direction::low_to_high));
    const auto check = assemble(list);
    REQUIRE(check.remarks.size() == 1);
    CHECK(check.remarks[0] == "The harp as a whole is 23 cents flat of A4 = 440.0 Hz.");
    CHECK(check.steps.size() == 90);
}
