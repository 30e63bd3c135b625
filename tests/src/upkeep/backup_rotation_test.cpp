// SPDX-License-Identifier: MIT
#include "upkeep/backup_rotation.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;

TEST_CASE("backups_to_drop: keeps days, weeks, months and years", "[upkeep]")
{
    // Three years of daily backups, dropped each day as the ledger does.
    std::vector<Date> backups;
    const int first = days_since_epoch({2023, 3, 1}), last = days_since_epoch({2026, 3, 4});
    for (int day = first; day <= last; ++day) {
        const Date today = date_from_days(day);
        backups.push_back(today);
        for (const Date dropped : backups_to_drop(backups, today))
            backups.erase(std::find(backups.begin(), backups.end(), dropped));
    }
    const auto has = [&](Date date) {
        return std::find(backups.begin(), backups.end(), date) != backups.end();
    };
    for (int day = last - 6; day <= last; ++day) CHECK(has(date_from_days(day)));
    CHECK(has({2026, 2, 22})); // a Sunday: the youngest of its week
    CHECK(has({2026, 2, 15}));
    CHECK(has({2025, 12, 31})); // the youngest of its month
    CHECK(has({2025, 5, 31}));
    CHECK(has({2024, 12, 31})); // the youngest of its year
    CHECK(has({2023, 12, 31}));
    CHECK_FALSE(has({2024, 6, 30}));
    CHECK(backups.size() <= 7 + 5 + 12 + 4);
}

TEST_CASE("backups_to_drop: a few backups are all kept", "[upkeep]")
{
    CHECK(backups_to_drop({{2026, 3, 4}, {2026, 3, 1}, {2025, 1, 1}}, {2026, 3, 4}).empty());
    CHECK(backups_to_drop({}, {2026, 3, 4}).empty());
}
