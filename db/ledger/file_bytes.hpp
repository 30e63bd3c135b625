// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "base/sha256.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace harpkeep::db {

/// All bytes of a file; refused when there are more than `largest_bytes`.
[[nodiscard]] Result<std::vector<std::uint8_t>> file_bytes(const std::string& path,
                                                           std::int64_t largest_bytes);

/// Hash of a file, read in pieces, whatever its size.
[[nodiscard]] Result<Sha256Hash> sha256_of_file(const std::string& path);

} // namespace harpkeep::db
