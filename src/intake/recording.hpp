// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "measure/placement.hpp"
#include "measure/reading.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// What one recording holds, before it is known which strings were plucked.
struct HeardRecording {
    std::string path;
    std::string sha256; ///< of the file's bytes, hexadecimal
    double duration_s = 0.0;
    double sample_rate_hz = 0.0;
    std::vector<PluckMeasurement> plucks; ///< in order of time
    std::vector<IgnoredSound> ignored;    ///< file_index is left at 0
    std::vector<std::string> remarks;     ///< about the file and its sound, for the player
};

/// Told how much of the work is done, 0 to 1; answers whether to go on.
using Progress = std::function<bool(double share)>;

/// Listens to a recording from front to back and measures every pluck in it.
///
/// Given    progress  may be empty
/// Returns  what was heard; or why not: the file is missing, empty, no sound file, silent, or stopped by
/// progress Notes    Memory does not grow with the length of the file.
[[nodiscard]] Result<HeardRecording> hear_recording(const std::string& path, const Progress& progress = {});

/// One recording of a check.
struct CheckRecording {
    std::string path;
    std::optional<Position> pass; ///< everything in it was sounded in this position
};

/// What a check of recordings gives, with the recordings it rests on.
struct HeardCheck {
    CheckResult result;
    std::vector<HeardRecording> recordings; ///< plucks moved into result
};

/// Listens to the recordings of one check and places and measures what was sounded; one that was named twice
/// is refused.
[[nodiscard]] Result<HeardCheck> hear_check(const HarpLayout& layout, Hertz a4,
                                            const std::vector<CheckRecording>& recordings,
                                            const Progress& progress = {});

} // namespace harpkeep
