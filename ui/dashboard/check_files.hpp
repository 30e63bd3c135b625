// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// The positions in which a whole pass of a harp can be sounded, lowest first.
[[nodiscard]] std::vector<Position> check_positions(HarpKind kind);

/// The pass that a file's name tells: "heron-flats.m4a" holds flats. Nothing when it names none or several.
[[nodiscard]] std::optional<Position> pass_from_name(const std::string& path, HarpKind kind);

/// What follows the last slash.
[[nodiscard]] std::string file_name(const std::string& path);

} // namespace harpkeep::dashboard
