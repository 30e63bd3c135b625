// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_risk.hpp"
#include "reason/observed_string.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "units/date.hpp"

#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// What the strings of a ledger tell about lives, and what could not be used.
struct StringHistory {
    std::vector<ObservedString> observed;
    std::vector<StringInUse> in_use; ///< on harps that are still there
    double calendar_years = 0.0;     ///< from the first day on which a string was watched until today
    int unknown_age = 0;             ///< nobody knows when they were put on: their lives tell nothing
    int vague_dates = 0;             ///< only a month or a year is known: its middle was taken
    int unknown_reason = 0;          ///< came off for a reason that was not noted: counted as still sound
};

/// Turns string records into lives.
///
/// Given      every string of the ledger with its harp among `harps`; the day to speak of, a full date. What
/// was put on
///            or taken off after that day is not known then.
/// Notes      Only `broke` ends a life. A string that was on when the ledger began enters at the age it had
/// then. One
///            that broke on the day it was put on lived for half a day. A string's group is named by its
///            material, with "wound" in front when it has a wrap.
[[nodiscard]] StringHistory string_history(std::span<const StringLife> lives,
                                           std::span<const HarpRecord> harps, Date today);

/// "gut", "wound steel", "unknown material": what a string's life is grouped by.
[[nodiscard]] std::string life_material(const StringMake& make);

/// What makes strings interchangeable: place, material, gauge. "3C gut 1.12 mm", "6C steel 0.75 mm in copper
/// 2.10 mm". Supplier and batch make no difference.
[[nodiscard]] std::string spare_kind_name(StringPlace place, const StringMake& make);

/// What is to be said about a history before anything is reckoned from it; empty when all could be used.
[[nodiscard]] std::vector<std::string> history_sentences(const StringHistory& history);

} // namespace harpkeep
