// SPDX-License-Identifier: MIT
#pragma once

#include "units/date.hpp"

#include <vector>

namespace harpkeep {

/// How many backups are kept of each kind; the youngest of a week, a month or a year stands for it.
struct BackupRotation {
    int days = 7;
    int weeks = 5;
    int months = 12;
    int years = 100;
};

/// Which backups can go.
///
/// Given    backups  the days of the backups that there are, in any order, each once
///          today    a backup of today or later is always kept
/// Returns  those that no day, week (Monday to Sunday), month or year needs, oldest first
[[nodiscard]] std::vector<Date> backups_to_drop(std::vector<Date> backups, Date today,
                                                const BackupRotation& rotation = {});

} // namespace harpkeep
