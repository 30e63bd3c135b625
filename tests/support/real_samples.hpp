// SPDX-License-Identifier: MIT
#pragma once

#include "harp/string_place.hpp"

#include <string>
#include <vector>

namespace harpkeep::tests {

/// One real harp note, fetched by scripts/fetch_samples.sh.
struct RealSample {
    std::string set;  ///< "wav", "mp3", "freepats", "fluid" or "musescore"
    std::string note; ///< scientific name with sharps, as its publisher calls it: "C#3"
    std::string path;
    std::string licence;
    StringPlace place; ///< the letter of the note
    bool sharp = false;
    double nominal_hz =
        0.0; ///< of the note in equal temperament at A4 = 440 Hz; the string is up to 31 cents off
};

/// All of them, in the order of the index.
///
/// Notes  The mp3 set holds the plucks of the wav set, the musescore set those of the fluid set. The folder
/// is
///        $HARPKEEP_SAMPLES or build/samples of the source tree.
/// Throws std::runtime_error with the command to run when they were not fetched; by these words ctest shows
/// the
///        test as skipped
[[nodiscard]] std::vector<RealSample> real_samples();

/// Those of one set.
[[nodiscard]] std::vector<RealSample> real_samples(const std::string& set);

struct MonoSound {
    double sample_rate_hz = 0.0;
    std::vector<double> samples;
};

/// Reads a recording as the program does.
[[nodiscard]] MonoSound load(const std::string& path);

} // namespace harpkeep::tests
