// SPDX-License-Identifier: MIT
#pragma once

#include "records/climate_record.hpp"
#include "report/document.hpp"
#include "units/date.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep::report {

/// Lowest, middle (median) and highest of some samples; plain numbers of one unit.
struct Spread {
    double lowest = 0.0;
    double middle = 0.0;
    double highest = 0.0;
};

/// The air around a harp or in a room over a time.
struct ClimateOverview {
    Date from;
    Date until;
    std::size_t samples = 0;
    std::optional<Spread> humidity_percent;
    std::optional<Spread> temperature_celsius;
    double humidity_outside_share = 0.0; ///< of the samples: outside the usual range
};

/// What is wished for harps ("Guide to string replacement", a page title).
inline constexpr double usual_humidity_low_percent = 40.0;
inline constexpr double usual_humidity_high_percent = 50.0;

/// Given  samples of any time; only those of the days `from` to `until` count
[[nodiscard]] ClimateOverview climate_overview(std::span<const ClimateSample> samples, Date from, Date until);

/// "humidity 31 to 62 %, middle 44 %; 17 to 26 °C", or that nothing was logged.
[[nodiscard]] std::string climate_words(const ClimateOverview& overview);

[[nodiscard]] std::vector<Field> climate_fields(const ClimateOverview& overview);

} // namespace harpkeep::report
