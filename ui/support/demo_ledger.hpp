// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "db/ledger/ledger.hpp"
#include "ui/support/demo_checks.hpp"

#include <functional>

namespace harpkeep::ui {

inline constexpr int usual_demo_harps = 16;

/// Heron's regulation over the years before `today`, a day number: its F pedal wears, 2A and 4G went off.
[[nodiscard]] DemoRegulation demo_heron(int today);

/// Told the share that is done; false stops.
using DemoProgress = std::function<bool(double)>;

/// Fills a new ledger with the invented Larkmoor Community Music School: rooms, harps, checks of two and a
/// half years, visits, strings and their ends, spares, loans, reminders, climate.
///
/// Given   harps   1 to 1000; the first is Heron with a long history, the later ones have short ones
///         author  its moment is the day on which the school is looked at
/// Notes   The same harps, days before today and errors each time. Four harps have histories of their own;
/// from
///         the thirteenth on a harp has one check and the strings it came with.
[[nodiscard]] Result<void> fill_demo_ledger(db::Ledger& ledger, const db::Author& author,
                                            int harps = usual_demo_harps, const DemoProgress& progress = {});

} // namespace harpkeep::ui
