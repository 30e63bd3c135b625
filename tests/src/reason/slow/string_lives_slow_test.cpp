// SPDX-License-Identifier: MIT
#include "reason/break_clusters.hpp"
#include "reason/spare_plan.hpp"
#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace harpkeep;

// How statements about strings come true over many invented schools. Prints with --success; docs/methods
// quotes.

TEST_CASE("schools: predicted breaks of a year come true", "[reason][property]")
{
    constexpr int schools = 100;
    std::mt19937_64 random{111};
    double predicted = 0.0, happened = 0.0;
    int inside = 0, in_promised_tenth = 0, tenth = 0;
    for (int i = 0; i < schools; ++i) {
        const auto school = synthetic::draw_school(random, {.harps = 2, .years = 3});
        const auto model =
            learn_lives(school.observed, LifeGrouping::octave_and_material, {.scenarios = 200});
        if (!model) continue;
        const auto report = break_risks(*model, school.in_use, 365.25);
        double truth = 0.0;
        for (std::size_t s = 0; s < school.in_use.size(); ++s)
            truth += stats::weibull_failure_within({1.6, school.truth_scales[s]}, *school.in_use[s].age_days,
                                                   365.25);
        predicted += report.expected_breaks.value;
        happened += truth;
        inside += report.expected_breaks.limits.lower < truth && truth < report.expected_breaks.limits.upper;
        for (const auto& risk : report.strings) {
            if (risk.chance.value < 0.3 || risk.chance.value > 0.5) continue;
            ++tenth;
            const double scale = synthetic::scale_days(risk.string.place);
            in_promised_tenth += stats::random_lives::uniform(random) <
                                 stats::weibull_failure_within({1.6, scale}, *risk.string.age_days, 365.25);
        }
    }
    INFO("predicted " << predicted / schools << ", truth " << happened / schools << " a school; limits held "
                      << inside / double(schools) << "; of " << tenth << " strings given 30 to 50 %, "
                      << in_promised_tenth / double(tenth) << " broke");
    CHECK(predicted == Approx(happened).epsilon(0.05)); // pooling pulls the rare and the frequent together
    CHECK(inside / double(schools) > 0.90);             // 95 % promised; four standard errors and a point
    CHECK(in_promised_tenth / double(tenth) == Approx(0.4).margin(0.05));
}

TEST_CASE("schools: spares to a level of 5 % run out in about 5 of 100 terms", "[reason][property]")
{
    constexpr int schools = 100, terms = 50;
    std::mt19937_64 random{112};
    int missing = 0, all = 0;
    double ordered = 0.0;
    for (int i = 0; i < schools; ++i) {
        const auto school = synthetic::draw_school(random, {.harps = 3, .years = 4});
        const auto model =
            learn_lives(school.observed, LifeGrouping::octave_and_material, {.scenarios = 200});
        if (!model) continue;
        const auto plan = plan_spares(*model, school.in_use, {}, 120.0, {.scenarios = 100});
        std::map<std::string, int> stock;
        for (const auto& line : plan.lines) {
            stock[line.kind.name] = line.wanted;
            ordered += line.to_order / double(schools);
        }
        for (int term = 0; term < terms; ++term) {
            auto left = stock;
            bool short_of_one = false;
            for (std::size_t s = 0; s < school.in_use.size(); ++s) {
                auto& kind = left[school.in_use[s].kind];
                kind -= synthetic::draw_breaks(random, 1.6, school.truth_scales[s],
                                               *school.in_use[s].age_days, 120.0);
                short_of_one = short_of_one || kind < 0;
            }
            missing += short_of_one;
            ++all;
        }
    }
    INFO("missing one in " << missing / double(all) << " of the terms, with " << ordered
                           << " strings carried");
    CHECK(missing / double(all) ==
          Approx(0.05).margin(0.02)); // between schools the truth differs from what is learnt
}

TEST_CASE("schools: burrs are found and sound harps left alone", "[reason][property]")
{
    constexpr int schools = 150;
    std::mt19937_64 random{113};
    int false_flags = 0, found = 0, found_strong = 0;
    for (int i = 0; i < schools; ++i) {
        const auto flagged = [&](const synthetic::SchoolPlan& plan) {
            const auto school = synthetic::draw_school(random, plan);
            const auto model =
                learn_lives(school.observed, LifeGrouping::octave_and_material, {.scenarios = 200});
            std::vector<BreakCluster> flags;
            if (model)
                for (const auto& cluster : find_break_clusters(*model, school.observed).clusters)
                    if (cluster.beyond_chance) flags.push_back(cluster);
            return flags;
        };
        const StringPlace place = *place_from_harp_name("3A");
        const auto hit = [&](const std::vector<BreakCluster>& flags) {
            return std::any_of(flags.begin(), flags.end(),
                               [&](const auto& flag) { return flag.harp == "Wren" && flag.place == place; });
        };
        false_flags += !flagged({.harps = 3, .years = 5}).empty();
        found += hit(flagged({.harps = 3, .years = 5, .burr = synthetic::Burr{"Wren", place, 0.25}}));
        found_strong += hit(flagged({.harps = 3, .years = 5, .burr = synthetic::Burr{"Wren", place, 0.1}}));
    }
    const double n = schools;
    INFO("false flags " << false_flags / n << ", found at a quarter of the life " << found / n
                        << ", at a tenth " << found_strong / n);
    CHECK(false_flags / n < 0.05 + 4 * 0.0178); // four standard errors above the level
    CHECK(found_strong / n > 0.9);
}
