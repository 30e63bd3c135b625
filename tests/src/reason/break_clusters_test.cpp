// SPDX-License-Identifier: MIT
#include "reason/break_clusters.hpp"

#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("find_break_clusters: finds a burr and where it cuts", "[reason]")
{
    std::mt19937_64 random{71};
    const StringPlace burr = *place_from_harp_name("3A");
    const auto school =
        synthetic::draw_school(random, {.harps = 3, .years = 5, .burr = synthetic::Burr{"Wren", burr, 0.1}});
    const auto model = learn_lives(school.observed).value();
    const auto report = find_break_clusters(model, school.observed);
    CHECK(report.looked_at == 3 * 47);
    REQUIRE_FALSE(report.clusters.empty());
    const auto& worst = report.clusters.front();
    CHECK(worst.beyond_chance);
    CHECK(worst.harp == "Wren");
    CHECK(worst.place == burr);
    CHECK(worst.usual_break_point == "disc");
    CHECK(worst.breaks > 4.0 * worst.expected_breaks);
    CHECK(worst.chance < worst.corrected_chance);
    for (std::size_t i = 1; i < report.clusters.size(); ++i) CHECK_FALSE(report.clusters[i].beyond_chance);
}

TEST_CASE("find_break_clusters: a sound school shows none", "[reason]")
{
    std::mt19937_64 random{72};
    const auto school = synthetic::draw_school(random, {.harps = 4, .years = 6});
    const auto model = learn_lives(school.observed).value();
    for (const auto key : {ClusterKey::place, ClusterKey::harp})
        for (const auto& cluster : find_break_clusters(model, school.observed, key).clusters) {
            CHECK_FALSE(cluster.beyond_chance);
            CHECK(cluster.corrected_chance >= cluster.chance);
        }
}

TEST_CASE("find_break_clusters: expected breaks add up to about those seen", "[reason][property]")
{
    std::mt19937_64 random{73};
    const auto school = synthetic::draw_school(random, {.harps = 4, .years = 6});
    const auto model = learn_lives(school.observed).value();
    double seen = 0.0, expected = 0.0;
    for (const auto& cluster : find_break_clusters(model, school.observed, ClusterKey::harp).clusters) {
        seen += cluster.breaks;
        expected += cluster.expected_breaks;
    }
    CHECK(expected == Approx(seen).epsilon(0.05)); // leaving each harp out in turn
}

TEST_CASE("find_break_clusters: the correction is Holm's", "[reason]")
{
    // Two bad places in an otherwise quiet school: the first is multiplied by all places, the second by one
    // less.
    std::mt19937_64 random{74};
    auto school = synthetic::draw_school(random, {.harps = 2, .years = 4});
    const auto add = [&](const char* name, int times) {
        for (int i = 0; i < times; ++i)
            school.observed.push_back({.harp = "Heron",
                                       .place = *place_from_harp_name(name),
                                       .material = "gut",
                                       .age_at_exit_days = 20,
                                       .broke = true});
    };
    add("4G", 5);
    add("4A", 4);
    const auto model = learn_lives(school.observed).value();
    const auto report = find_break_clusters(model, school.observed);
    const auto& first = report.clusters[0];
    const auto& second = report.clusters[1];
    CHECK(first.corrected_chance == Approx(report.looked_at * first.chance).epsilon(1e-12)); // its definition
    CHECK(second.corrected_chance ==
          Approx(std::max(first.corrected_chance, (report.looked_at - 1) * second.chance)).epsilon(1e-12));
}
