// SPDX-License-Identifier: MIT
#pragma once

#include "records/harp_record.hpp"
#include "ui/cli/output.hpp"

#include <vector>

namespace harpkeep::cli {

[[nodiscard]] Json json_of(const HarpRecord& harp);

/// "pedal harp, 47 strings 7C to 0G".
[[nodiscard]] std::string kind_and_compass(const HarpLayout& layout);

void print_harps(const std::vector<HarpRecord>& harps);
void print_harp(const HarpRecord& harp);

} // namespace harpkeep::cli
