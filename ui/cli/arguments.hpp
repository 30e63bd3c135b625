// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/string_place.hpp"
#include "records/money.hpp"

#include <string>
#include <vector>

namespace harpkeep::cli {

// Words of the command line turned into values; a failure says what was read and what would do.

/// "4C", also "00G" and "C4".
[[nodiscard]] Result<StringPlace> place_argument(const std::string& text);
/// "7C,7D" or several words; "none" is an empty list.
[[nodiscard]] Result<std::vector<StringPlace>> places_argument(const std::vector<std::string>& texts);
/// "1250.00 EUR".
[[nodiscard]] Result<Money> money_argument(const std::string& text);

} // namespace harpkeep::cli
