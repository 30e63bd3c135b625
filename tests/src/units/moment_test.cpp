// SPDX-License-Identifier: MIT
#include "units/moment.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

// RFC 3339, 5.8: both name the same moment, 1985-04-12T23:20:50.52Z and with an offset;
// 1996-12-19T16:39:57-08:00 is 1996-12-20T00:39:57Z.
TEST_CASE("moment: the examples of RFC 3339", "[units][reference]")
{
    CHECK(moment_from_iso("1985-04-12T23:20:50.52Z")->utc_ms == 482196050520);
    const auto pacific = moment_from_iso("1996-12-19T16:39:57-08:00");
    REQUIRE(pacific);
    CHECK(pacific->utc_ms == moment_from_iso("1996-12-20T00:39:57Z")->utc_ms);
    CHECK(local_date(*pacific) == Date{1996, 12, 19});
}

TEST_CASE("moment: text round trips, offset and milliseconds kept", "[units][property]")
{
    for (const std::int64_t utc_ms : {0LL, -1LL, 1645557742000LL, 1645557742250LL, -86400001LL})
        for (const int offset : {0, 60, -300, 345, -1080, 1080}) {
            const Moment moment{utc_ms, offset};
            CHECK(moment_from_iso(iso_time(moment)) == moment);
        }
}

TEST_CASE("moment: is built from what the wall shows", "[units]")
{
    const Moment moment = moment_at({2026, 3, 4}, 18, 5, 60);
    CHECK(iso_time(moment) == "2026-03-04T18:05:00+01:00");
    CHECK(short_time(moment) == "2026-03-04 18:05");
    CHECK(moment_from_iso("2026-03-04T18:05+01:00") == moment);
}

TEST_CASE("moment: what is no time with an offset is not read", "[units]")
{
    for (const char* wrong : {"", "2026-03-04", "2026-03-04T18:05", "2026-03-04T24:00Z", "2026-03-04T18:60Z",
                              "2026-03-04T18:05:61Z", "2026-03-04T18:05+1:00", "2026-03-04T18:05+01:00x",
                              "2026-02-30T18:05Z", "2026-03-04T18:05:00.Z", "2026-03-04T18:05+19:00"})
        CHECK_FALSE(moment_from_iso(wrong));
}
