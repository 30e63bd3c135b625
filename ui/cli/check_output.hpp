// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "ui/cli/output.hpp"

#include <string>
#include <vector>

namespace harpkeep::cli {

/// A check for programs: {"harp","a4_hz","readings","steps","whole_steps","missing","ignored","remarks"};
/// uncertainties are standard (k = 1).
///
/// Given    files  the recordings that file_index counts; may be empty for a live check
[[nodiscard]] Json json_of_check(const std::string& harp, const CheckResult& check,
                                 const std::vector<std::string>& files);

/// One pluck for programs: file, start_s, frequency_hz, uncertainty_cents, inharmonicity, decay_s, snr_db,
/// trusted, reasons.
[[nodiscard]] Json json_of_pluck(const std::string& file, const PluckMeasurement& pluck);

/// A check for people: the strings with the largest step errors first, then what is doubtful, missing,
/// ignored.
void print_check(const std::string& harp, const HarpLayout& layout, const CheckResult& check,
                 const std::vector<std::string>& files);

} // namespace harpkeep::cli
