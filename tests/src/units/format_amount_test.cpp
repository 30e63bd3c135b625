// SPDX-License-Identifier: MIT
#include "units/format_amount.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace harpkeep;

TEST_CASE("format: shares in as many digits as anyone can use", "[units]")
{
    const auto [share, text] =
        GENERATE(std::pair{0.0, "0 %"}, std::pair{0.0004, "under 0.1 %"}, std::pair{0.0042, "0.4 %"},
                 std::pair{0.0721, "7.2 %"}, std::pair{0.0996, "10 %"}, std::pair{0.434, "43 %"},
                 std::pair{1.0, "100 %"}, std::pair{1.04, "104 %"});
    CHECK(percent_text(share) == text);
    CHECK(percent_range_text(0.05, 0.12) == "5.0 to 12 %");
    CHECK(percent_range_text(0.121, 0.119) == "12 %");
    CHECK(percent_range_text(0.88, 1.04) == "88 to 104 %"); // more than a string can carry is not hidden
}

TEST_CASE("format: no probability is rounded to certainty", "[units]")
{
    const auto [probability, text] =
        GENERATE(std::pair{0.0, "under 0.1 %"}, std::pair{0.0004, "under 0.1 %"}, std::pair{0.0042, "0.4 %"},
                 std::pair{0.434, "43 %"}, std::pair{0.9961, "99.6 %"}, std::pair{0.9991, "over 99.9 %"},
                 std::pair{1.0, "over 99.9 %"});
    CHECK(probability_text(probability) == text);
    CHECK(probability_range_text(0.9, 1.0) == "90 to over 99.9 %");
}

TEST_CASE("format: spans of time by their size", "[units]")
{
    CHECK(span_text(1) == "1 day");
    CHECK(span_text(9.2) == "9 days");
    CHECK(span_text(0.2) == "under 1 day");
    CHECK(span_text(430) == "14 months");
    CHECK(span_text(1200) == "3.3 years");
    CHECK(span_text(std::numeric_limits<double>::infinity()) == "over 100 years");
    CHECK(span_range_text(250, 430) == "8 to 14 months");
    CHECK(span_range_text(430, 1200) == "14 months to 3.3 years");
    CHECK(span_range_text(1200, 1201) == "3.3 years");
}

TEST_CASE("format: counts and forces", "[units]")
{
    CHECK(count_text(0.31) == "0.3");
    CHECK(count_text(12.4) == "12");
    CHECK(count_text(0.02) == "under 0.1");
    CHECK(count_text(0.0) == "0.0");
    CHECK(count_range_text(0.02, 0.31) == "under 0.1 to 0.3");
    CHECK(count_range_text(0.31, 0.32) == "0.3");
    CHECK(counted(1, "break") == "1 break");
    CHECK(counted(0, "break") == "0 breaks");
    CHECK(newtons_text(Newtons{214.3}) == "214 N");
    CHECK(newtons_text(Newtons{9731}) == "9.73 kN");
    CHECK(newtons_text(Newtons{4.26}) == "4.3 N");
    CHECK(megapascals_text(Megapascals{118.4}) == "118 MPa");
    CHECK(millimetres_text(0.914_mm) == "0.91 mm");
    CHECK(millimetres_text(640.2_mm) == "640 mm");
    CHECK(stiffness_text(NewtonsPerMillimetre{1.337}) == "1.34 N/mm");
    CHECK(mass_per_metre_text(KilogramsPerMetre{0.00153}) == "1.53 g/m");
    CHECK(mass_per_metre_text(KilogramsPerMetre{0.0507}) == "50.7 g/m");
}
