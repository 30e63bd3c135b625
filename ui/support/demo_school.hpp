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

/// Makes a folder with the ledger of an invented school, two and a half years of it, and a synthetic
/// recording of its harp Heron as it stands today: one pedal narrow, two strings off, a skipped string, a
/// repeated one, knocks.
///
/// Given    folder  made when it is not there; a demonstration that is there already is refused, not
/// overwritten
[[nodiscard]] Result<DemoSchool> make_demo_school(const std::string& folder, const db::Author& author);

} // namespace harpkeep::ui
