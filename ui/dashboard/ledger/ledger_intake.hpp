// SPDX-License-Identifier: MIT
#pragma once

#include "exchange/climate_csv.hpp"

#include <optional>
#include <string_view>

namespace harpkeep::dashboard {

/// Which columns of a logger's table mean what, by their headings: time or date, temp, humid or RH.
///
/// Returns  nothing when there is no time, or neither temperature nor humidity; the command line can be told
[[nodiscard]] std::optional<ClimateColumns> guessed_columns(std::string_view text);

} // namespace harpkeep::dashboard
