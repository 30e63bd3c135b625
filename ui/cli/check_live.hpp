// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"
#include "ui/support/live_check.hpp"

#include <string>
#include <vector>

namespace harpkeep::cli {

/// What a guided check is told on the command line.
struct LiveCheckWords {
    ui::DeviceChoice device;
    std::string way = "pass-by-pass";
    std::string pedal;                ///< way "pedal": one letter
    int octave = -1;                  ///< way "octave"
    std::vector<std::string> strings; ///< way "strings"
    bool from_top = false;
    int closing_strings = 5;
    double room_s = 3.0;
    bool anew = false;       ///< leave a check that was stopped
    bool finish = false;     ///< store a check that was stopped, as far as it went
    std::string record_path; ///< empty: the sound is not kept
};

void add_live_check_options(CLI::App& command, LiveCheckWords& words);

/// The plan that the words ask for, or which of them cannot be.
///
/// Given  ledger, harp  of which way "doubtful" takes the strings that the last check left in doubt
[[nodiscard]] Result<CheckPlanRequest> plan_request_from(const LiveCheckWords& words,
                                                         const db::Ledger& ledger, const HarpRecord& harp);

/// Guides a check through a harp of the ledger, on the whole terminal or as JSON lines.
///
/// Given      no_store  nothing is kept in the ledger, and a stopped check is lost
/// Notes      Each reading is in the ledger before the next thing happens. A check that is stopped is gone on
///            with by the next call; when it is complete, it is stored as a check and printed.
[[nodiscard]] Result<void> check_live(const Common& common, const std::string& harp_name, Hertz a4,
                                      bool no_store, const LiveCheckWords& words);

} // namespace harpkeep::cli
