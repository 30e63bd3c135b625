// SPDX-License-Identifier: MIT
#include "units/date.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

// Unix time 0 is 1970-01-01; 2000-03-01 is day 11017 (POSIX, seconds since the Epoch: 951868800 / 86400).
TEST_CASE("days_since_epoch: known days", "[units][reference]")
{
    CHECK(days_since_epoch({1970, 1, 1}) == 0);
    CHECK(days_since_epoch({2000, 3, 1}) == 11017);
    CHECK(days_since_epoch({1969, 12, 31}) == -1);
    CHECK(days_since_epoch({2026, 3}) == days_since_epoch({2026, 3, 1}));
}

TEST_CASE("date: every day of 1600 to 2400 follows the one before and round trips", "[units][property]")
{
    int wrong = 0;
    Date before = date_from_days(days_since_epoch({1599, 12, 31}));
    for (int day = days_since_epoch({1600, 1, 1}); day <= days_since_epoch({2400, 12, 31}); ++day) {
        const Date date = date_from_days(day);
        if (!is_valid(date) || days_since_epoch(date) != day || !(before < date) ||
            date_from_iso(iso_date(date)) != date)
            ++wrong;
        before = date;
    }
    CHECK(wrong == 0);
}

TEST_CASE("date: reads days, months and years", "[units]")
{
    CHECK(date_from_iso("2026-03-04") == Date{2026, 3, 4});
    CHECK(date_from_iso("2026-03") == Date{2026, 3});
    CHECK(date_from_iso("2026") == Date{2026});
    for (const char* wrong : {"", "26", "2026-3-4", "2026-13", "2026-00", "2026-02-30", "2023-02-29",
                              "2026-03-00", "2026/03/04", "20260304", "2026-03-04T", "0000"})
        CHECK_FALSE(date_from_iso(wrong));
    CHECK(date_from_iso("2024-02-29"));
    CHECK_FALSE(date_from_iso("1900-02-29"));
    CHECK(date_from_iso("2000-02-29"));
}

TEST_CASE("date: a partial date spans its days", "[units]")
{
    CHECK(first_day({2024, 2}) == Date{2024, 2, 1});
    CHECK(last_day({2024, 2}) == Date{2024, 2, 29});
    CHECK(last_day({2024}) == Date{2024, 12, 31});
    CHECK(Date{2024, 2} < Date{2024, 2, 1});
}

TEST_CASE("plus_months: keeps the day, or takes the month's last", "[units]")
{
    CHECK(plus_months({2026, 1, 31}, 1) == Date{2026, 2, 28});
    CHECK(plus_months({2026, 1, 31}, 13) == Date{2027, 2, 28});
    CHECK(plus_months({2026, 3, 4}, -3) == Date{2025, 12, 4});
    CHECK(plus_months({2026, 12, 4}, 12) == Date{2027, 12, 4});
}
