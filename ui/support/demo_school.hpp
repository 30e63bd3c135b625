// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "db/ledger/ledger.hpp"

#include <string>

namespace harpkeep::ui {

/// Where the demonstration lies.
struct DemoSchool {
    std::string ledger_path;
    std::string recording_path; ///< all strings of Heron in three passes, flat, natural, sharp
};

/// Makes a folder with the ledger of an invented school, three years of it, and a synthetic recording of one
/// of its harps: steps a few cents off, one pedal 6 cents wide, a skipped string, a repeated one, knocks.
///
/// Given    folder  made when it is not there; a demonstration that is there already is refused, not
/// overwritten
[[nodiscard]] Result<DemoSchool> make_demo_school(const std::string& folder, const db::Author& author);

/// The invented school alone: its harps and what happened to them in three years before `author.now`.
[[nodiscard]] Result<void> fill_demo_ledger(db::Ledger& ledger, const db::Author& author);

} // namespace harpkeep::ui
