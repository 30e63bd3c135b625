// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <string>
#include <string_view>

namespace harpkeep::cli {

/// Writes a whole file, or to the terminal when `path` is "-" or empty. The file appears complete or not at
/// all; one that is there is replaced.
[[nodiscard]] Result<void> write_output(const std::string& path, std::string_view bytes);

} // namespace harpkeep::cli
