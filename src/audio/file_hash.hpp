// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <string>

namespace harpkeep {

/// SHA-256 of a file's bytes, as 64 lower-case hexadecimal digits: what the ledger keeps to know a recording
/// again.
///
/// Returns    the digest, or why the file cannot be read
/// Reference  FIPS 180-4; computed by FFmpeg's libavutil, checked against the examples of the standard
[[nodiscard]] Result<std::string> sha256_of_file(const std::string& path);

} // namespace harpkeep
