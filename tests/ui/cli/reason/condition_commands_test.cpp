// SPDX-License-Identifier: MIT
#include "tests/support/sounded_harp.hpp"
#include "tests/ui/cli/reason/heron_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

auto place(const char* name)
{
    return *place_from_harp_name(name);
}

/// One string with each ailment; the rest of the harp is sound.
std::vector<Reading> ailing_readings()
{
    return sound_harp(1,
                      [](Reading& reading, int turn) {
                          if (reading.place == place("3A") && turn == 3) raise(reading, 6.0);
                          if (reading.place == place("2D") && turn == 3) raise(reading, -6.0);
                          if (reading.place == place("2C")) {
                              reading.pluck.doubts = {Doubt::beating};
                              reading.pluck.beat_rate_hz = 1.7;
                          }
                          if (reading.place == place("4D")) {
                              reading.pluck.partials[1].frequency_hz *= std::exp2(9.0 / 1200.0);
                              reading.pluck.partials[3].frequency_hz *= std::exp2(-11.0 / 1200.0);
                          }
                          if (reading.place == place("3E") && reading.position == Position::sharp)
                              for (auto& partial : reading.pluck.partials) partial.decay_s *= 0.4;
                      })
        .readings;
}

} // namespace

TEST_CASE("harpkeep cause: return, false strings, poor grip and settling are told apart", "[cli]")
{
    HeronLedger ledger;
    ledger.add_readings(ailing_readings());
    ledger.put_on("2D", "2026-02-27");
    ledger.put_on("2E", "2026-02-27");
    const auto text = ledger.run(words({"cause"}));
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("0 steps measured: causes can be told apart from 14 on"));
    CHECK(text.says("3A comes back high, by +"));
    CHECK(text.says(", after the pedal was used; proven from 2 readings"));
    CHECK(text.says("2C sounds false in all 3 positions, beating 1.7 times a second (4 readings"));
    CHECK(text.says("4D sounds false in all 3 positions, partials typically "));
    CHECK(text.says("3E rings only "));
    CHECK(text.says("as long in sharp as its other positions and neighbours let expect"));
    CHECK(text.says("2E was put on 5 days ago and still settles"));
    CHECK(text.says("2D comes back low, by −"));
    CHECK(text.says("The string is new: it still stretches, which is no fault of its discs."));

    const auto json = ledger.run(words({"cause", "--json"})).json();
    std::map<std::string, std::string> kinds;
    for (const auto& condition : json["conditions"]) kinds[condition["place"]] += condition["kind"];
    CHECK(kinds == std::map<std::string, std::string>{{"3A", "no_return"},
                                                      {"2C", "false_string"},
                                                      {"4D", "false_string"},
                                                      {"3E", "poor_ring"},
                                                      {"2E", "settling"},
                                                      {"2D", "settlingno_return"}});
}

TEST_CASE("harpkeep verdict: a new string that comes back low is no reason to call", "[cli]")
{
    HeronLedger ledger;
    ledger.add_readings(ailing_readings());
    ledger.put_on("2D", "2026-02-27");
    const auto json = ledger.run(words({"verdict", "--json"})).json();
    CHECK(json["urgency"] == "next_visit"); // 3A and 3E
    for (const auto& reason : json["reasons"])
        if (reason["kind"] == "no_return") {
            CHECK(reason["place"] == "3A");
            CHECK(reason["count"] == 1);
        }
}

TEST_CASE("harpkeep cause: millimetres at a string whose length is planned", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 0.0, "3G");
    const auto without = ledger.run(words({"cause"}));
    CAPTURE(without.output);
    CHECK(without.says("3G is off by itself"));
    CHECK(without.says("With the lengths of the open strings in the stringing plan"));
    PlannedString planned{.place = place("3G")};
    planned.make.material = "gut";
    planned.length = 500.0_mm;
    ledger.plan(planned);
    const auto with = ledger.run(words({"cause"}));
    CAPTURE(with.output);
    // The natural of a 500 mm string sounds 500 / 2^(1/12) = 471.9 mm, times ln 2 / 1200.
    CHECK(with.says("Where 472 mm sound, one cent is 0.27 mm of length by geometry alone"));
    CHECK(with.says("not what to turn"));
    CHECK_FALSE(with.says("With the lengths of the open strings"));
    const auto json = ledger.run(words({"cause", "--json"})).json();
    REQUIRE(json["faults"].size() == 1);
    CHECK(json["faults"][0]["cent_of_length_mm"].get<double>() ==
          Approx(500.0 / std::exp2(1.0 / 12.0) * std::log(2.0) / 1200.0).epsilon(1e-12)); // rounding
    CHECK(json["faults"][0]["text"].get<std::string>().find("0.27 mm") != std::string::npos);
}

TEST_CASE("harpkeep drift: the history of one string, check by check, with intervals", "[cli]")
{
    HeronLedger ledger;
    for (int check = 0; check < 5; ++check) ledger.add_check(120 * (4 - check), 0.6 * check);
    ledger.add_visit("2025-06-01");
    ledger.put_on("3F", "2025-09-01");
    const auto text = ledger.run(words({"drift", "--string", "3F"}));
    CAPTURE(text.output);
    CHECK(text.exit_code == 0);
    CHECK(text.says("3F natural to sharp (± is the 95 % interval"));
    CHECK(text.says("2026-03-04: measured "));
    CHECK(text.says(" cents, estimated "));
    CHECK(text.says("2025-06-01: visit"));
    CHECK(text.says("2025-09-01: string changed"));
    const auto json = ledger.run(words({"drift", "--string", "3F", "--json"})).json();
    REQUIRE(json["steps"].size() == 2);
    REQUIRE(json["steps"][0]["history"].size() == 5);
    CHECK(json["steps"][0]["history"][4]["on"] == "2026-03-04");
    CHECK(json["steps"][0]["history"][4]["estimate_uncertainty_cents"].get<double>() > 0.0);
    CHECK(ledger.run(words({"drift", "--string", "9X"})).exit_code == 2);
    const auto without_steps = ledger.run(words({"drift", "--string", "7C"}));
    CHECK(without_steps.exit_code == 3);
    CHECK(without_steps.says("no check of Heron has measured a step of 7C"));
}

TEST_CASE("reasoning commands: what came after the day spoken of is not known then", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(100, 8.0); // 2025-11-24
    const auto young = ledger.add_check(0, 0.0);
    ledger.add_visit("2026-02-25");
    const auto then = ledger.run({"verdict", "--json", "--as-of", "2025-12-01"}).json();
    CHECK(then["urgency"] == "call_now");
    CHECK(then["check_age_days"] == 7);
    const auto before_all = ledger.run({"verdict", "--as-of", "2025-01-01"});
    CHECK(before_all.exit_code == 3);
    CHECK(before_all.says("Heron had no check by 2025-01-01"));
    CHECK(ledger.run({"verdict", "--as-of", "2025-12-01", "--check", to_string(young)}).exit_code == 2);
    CHECK(ledger.run({"drift", "--json", "--as-of", "2025-12-01"}).json()["steps"][0]["checks"] == 1);
}

TEST_CASE("harpkeep verdict: how long ago the last regulation may be is for the player to say", "[cli]")
{
    HeronLedger ledger;
    ledger.add_check(0, 0.0);
    ledger.add_visit("2024-12-01"); // 15 months before
    CHECK(ledger.run(words({"verdict", "--json"})).json()["urgency"] == "not_needed");
    const auto yearly = ledger.run(words({"verdict", "--regulation-months", "12", "--json"})).json();
    CHECK(yearly["urgency"] == "next_visit");
    CHECK(yearly["reasons"][0]["kind"] == "visit_due");
}
