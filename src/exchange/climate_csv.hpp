// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "records/climate_record.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

enum class TemperatureUnit { celsius, fahrenheit, kelvin };
enum class HumidityUnit { percent, fraction };
/// How a logger writes dates: 2026-03-04, 04.03.2026 or 04/03/2026, 03/04/2026, or seconds since 1970.
enum class DateOrder { year_first, day_first, month_first, unix_seconds };

/// Which column of a logger's file means what. A column is named by its heading, or by its number from 1.
struct ClimateColumns {
    std::string time;        ///< date and time, or the time alone when `date` is set
    std::string date;        ///< empty: `time` holds both
    std::string temperature; ///< empty: none in the file
    std::string humidity;    ///< empty: none in the file
    TemperatureUnit temperature_unit = TemperatureUnit::celsius;
    HumidityUnit humidity_unit = HumidityUnit::percent;
    DateOrder date_order = DateOrder::year_first;
    int skipped_lines = 0; ///< lines before the headings
};

/// The offset from UTC, in minutes, that a time without one was meant in.
using OffsetOf = std::function<int(Date date, int hour, int minute)>;

/// Reads a logger's file.
///
/// Given    text     CSV with commas, semicolons or tabs; numbers with a point, or with a comma where the
///                   separator is another
///          columns  of `temperature` and `humidity` at least one
/// Returns  the samples, or every cell that cannot be read with its line and column; a row in which both
/// values
///          are empty is left out
[[nodiscard]] Result<std::vector<ClimateSample>> climate_from_csv(std::string_view text,
                                                                  const ClimateColumns& columns,
                                                                  const std::string& file_name,
                                                                  const OffsetOf& offset_of);

} // namespace harpkeep
