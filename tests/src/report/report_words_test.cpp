// SPDX-License-Identifier: MIT
#include "report/climate_overview.hpp"
#include "report/paper.hpp"
#include "report/report_words.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::report;

TEST_CASE("places_words: a run of five or more neighbours is told by its ends", "[report]")
{
    const auto layout = make_layout({}).value();
    const auto places = [&](std::initializer_list<const char*> names) {
        std::vector<StringPlace> list;
        for (const char* name : names) list.push_back(*place_from_harp_name(name));
        return list;
    };
    CHECK(places_words(places({"4C", "3A"}), layout) == "4C and 3A");
    CHECK(places_words(places({"4C", "4D", "4E", "3F"}), layout) == "4C, 4D, 4E and 3F");
    CHECK(places_words(places({"3G", "4C", "4D", "4E", "3F", "1C"}), layout) == "4C to 3G and 1C");
    CHECK(places_words({}, layout).empty());
}

TEST_CASE("MoneySum: amounts of different currencies are not added up", "[report]")
{
    MoneySum sum;
    sum.add(Money{18000, "EUR"});
    sum.add(std::nullopt);
    sum.add(Money{500, "CHF"});
    sum.add(Money{50, "EUR"});
    CHECK(sum.words() == "180.50 EUR and 5.00 CHF");
    CHECK(MoneySum{}.words().empty());
}

TEST_CASE("last_visit: a visit after the day spoken of is not known then", "[report]")
{
    std::vector<VisitRecord> visits(3);
    visits[0].visit.visited_on = {2024, 5, 1};
    visits[1].visit.visited_on = {2025, 5, 1};
    visits[2].visit.visited_on = {2026, 5, 1};
    CHECK(last_visit(visits, {2025, 12, 31}) == &visits[1]);
    CHECK(last_visit(visits, {2023, 1, 1}) == nullptr);
}

TEST_CASE("climate_overview: only samples of its days count", "[report]")
{
    std::vector<ClimateSample> samples;
    for (int day = 1; day <= 9; ++day)
        samples.push_back(
            {moment_at({2026, 3, day}, 12, 0, 60), Celsius{20.0}, RelativeHumidity{30.0 + 3.0 * day}});
    const auto overview = climate_overview(samples, {2026, 3, 2}, {2026, 3, 8});
    CHECK(overview.samples == 7);
    REQUIRE(overview.humidity_percent);
    CHECK(overview.humidity_percent->lowest == 36.0);
    CHECK(overview.humidity_percent->middle == 45.0);
    CHECK(overview.humidity_percent->highest == 54.0);
    CHECK(overview.humidity_outside_share == Approx(4.0 / 7.0)); // 36, 39, 51, 54 of 40 to 50
    CHECK(climate_words(overview) == "humidity 36 to 54 %, middle 45 %; 20 to 20 °C");
    CHECK(climate_words(climate_overview(samples, {2026, 4, 1}, {2026, 4, 8})) == "not logged");
}

// 1 inch is 25.4 mm; letter is 8.5 in by 11 in. A4's sides are to each other as 1 to the root of 2, and its
// area is 1/16 of a square metre, both to the millimetre (ISO 216, from memory).
TEST_CASE("size_of: letter in inches, A4 by its ratio and area", "[report][reference]")
{
    CHECK(size_of(Paper::letter).width.value() == Approx(8.5 * 25.4));
    CHECK(size_of(Paper::letter).height.value() == Approx(11.0 * 25.4));
    const double width = size_of(Paper::a4).width.value();
    const double height = size_of(Paper::a4).height.value();
    CHECK(height / width == Approx(std::sqrt(2.0)).margin(0.5 / width)); // whole millimetres
    CHECK(width * height == Approx(1e6 / 16.0).margin(height));          // whole millimetres
}
