// SPDX-License-Identifier: MIT
#pragma once

#include "records/record.hpp"
#include "units/moment.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// The air at one moment; at least one of the two is known.
struct ClimateSample {
    Moment taken;
    std::optional<Celsius> temperature;
    std::optional<RelativeHumidity> humidity;

    bool operator==(const ClimateSample&) const = default;
};

/// Samples from one source: noted by hand, or read from a logger's file. Either of a room or of a harp.
struct ClimateSeries {
    std::optional<Uuid> room_id;
    std::optional<Uuid> harp_id;
    std::string source; ///< "by hand", or the name of the file
    std::vector<ClimateSample> samples;

    bool operator==(const ClimateSeries&) const = default;
};

/// One line in the list of what is known of the air.
struct ClimateSummary {
    Uuid id;
    ClimateSeries series; ///< samples are left out
    std::size_t sample_count = 0;
    Moment first;
    Moment last;
};

} // namespace harpkeep
