// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

namespace harpkeep {

/// How long a wav file says it is: length of its data chunk over its bytes a second.
///
/// Returns    nothing when it is no RIFF file, or was written by a program that never filled in the length
/// Notes      FFmpeg takes the length of plain samples from the size of the file and so never misses what was
/// cut off. Reference  RIFF/WAVE chunks `fmt ` and `data` (from memory)
[[nodiscard]] std::optional<double> promised_duration_of_wav_s(const std::string& path);

} // namespace harpkeep
