// SPDX-License-Identifier: MIT
#include "upkeep/backup_rotation.hpp"

#include <algorithm>
#include <functional>
#include <set>

namespace harpkeep {

namespace {

constexpr int days_to_first_monday = 3; // 1970-01-01 was a Thursday

int week_number(Date date)
{
    const int days = days_since_epoch(date) + days_to_first_monday;
    return days >= 0 ? days / 7 : (days - 6) / 7;
}

/// Keeps the youngest backup of each of the `count` youngest periods that have one.
void keep_youngest(const std::vector<Date>& youngest_first, int count,
                   const std::function<int(Date)>& period_of, std::set<Date>& kept)
{
    std::set<int> periods;
    for (const Date backup : youngest_first) {
        if (static_cast<int>(periods.size()) == count && !periods.contains(period_of(backup))) return;
        if (periods.insert(period_of(backup)).second) kept.insert(backup);
    }
}

} // namespace

std::vector<Date> backups_to_drop(std::vector<Date> backups, Date today, const BackupRotation& rotation)
{
    std::sort(backups.begin(), backups.end(), std::greater<>{});
    std::set<Date> kept;
    for (const Date backup : backups)
        if (!(backup < today)) kept.insert(backup);
    keep_youngest(backups, rotation.days, days_since_epoch, kept);
    keep_youngest(backups, rotation.weeks, week_number, kept);
    keep_youngest(
        backups, rotation.months, [](Date date) { return 12 * date.year + date.month; }, kept);
    keep_youngest(
        backups, rotation.years, [](Date date) { return date.year; }, kept);
    std::erase_if(backups, [&](Date backup) { return kept.contains(backup); });
    std::reverse(backups.begin(), backups.end());
    return backups;
}

} // namespace harpkeep
