// SPDX-License-Identifier: MIT
#pragma once

#include "base/sha256.hpp"
#include "measure/reading.hpp"
#include "records/uuid.hpp"
#include "units/moment.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// One sound file of a check; `file_index` of readings and ignored sounds counts these from 0.
struct Recording {
    std::string path;
    Sha256Hash sha256{}; ///< of the file's bytes
    Seconds duration;

    bool operator==(const Recording&) const = default;
};

/// All of a check but what was measured.
struct CheckHeader {
    Uuid harp_id;
    Moment taken; ///< when the harp was sounded
    std::string method = std::string{pitch_method};
    std::vector<Recording> recordings;
    std::optional<Celsius> temperature;
    std::optional<RelativeHumidity> humidity;
    std::string remarks; ///< the player's own words
};

/// One line in the list of a harp's checks.
struct CheckSummary {
    Uuid id;
    CheckHeader header; ///< recordings are left out
    double a4_hz = 440.0;
    int reading_count = 0;
    int step_count = 0;
    int doubtful_count = 0;
    int missing_count = 0;
};

/// A check as stored. Readings come in the order in which they sounded, steps from the lowest string up.
struct StoredCheck {
    Uuid id;
    CheckHeader header;
    CheckResult result;
};

} // namespace harpkeep
