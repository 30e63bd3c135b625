// SPDX-License-Identifier: MIT
#include "stats/false_discovery.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace harpkeep::stats;

// Benjamini & Hochberg 1995, section 4: fifteen ordered p-values of a trial (from memory); at 0.05 four
// stand.
TEST_CASE("false discovery: the paper's fifteen hypotheses leave four", "[stats][reference]")
{
    const std::vector<double> p_values{0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
                                       0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000};
    const auto stands = discoveries(p_values, 0.05);
    CHECK(std::count(stands.begin(), stands.end(), true) == 4);
    CHECK((stands[0] && stands[3] && !stands[4]));
}

TEST_CASE("false discovery: the order of the tests does not matter", "[stats][property]")
{
    const std::vector<double> p_values{0.9, 0.001, 0.02, 0.5, 0.012, 0.2};
    auto reversed = p_values;
    std::reverse(reversed.begin(), reversed.end());
    auto stands = discoveries(reversed, 0.1);
    std::reverse(stands.begin(), stands.end());
    CHECK(stands == discoveries(p_values, 0.1));
}

TEST_CASE("false discovery: nothing tested, nothing found", "[stats]")
{
    CHECK(discoveries(std::vector<double>{}, 0.05).empty());
}
