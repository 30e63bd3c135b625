// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/string_place.hpp"
#include "records/money.hpp"
#include "records/string_record.hpp"
#include "units/date.hpp"
#include "units/moment.hpp"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace harpkeep::cli {

// Words of the command line turned into values; a failure says what was read and what would do.

/// "4C", also "00G" and "C4".
[[nodiscard]] Result<StringPlace> place_argument(const std::string& text);
/// "7C,7D" or several words; "none" is an empty list.
[[nodiscard]] Result<std::vector<StringPlace>> places_argument(const std::vector<std::string>& texts);
/// "1250.00 EUR".
[[nodiscard]] Result<Money> money_argument(const std::string& text);

/// "2026-03-04", "2026-03" or "2026"; also "today" and "yesterday".
[[nodiscard]] Result<Date> date_argument(const std::string& text);
/// The date, or today when nothing was written.
[[nodiscard]] Result<Date> date_or_today(const std::string& text);
/// A date, or a time with or without its offset: "2026-03-04 18:05" is meant in this computer's zone. A date
/// alone is noon of that day.
[[nodiscard]] Result<Moment> moment_argument(const std::string& text);
/// "18m", "2y", "6w" or "90d": the date so long before today.
[[nodiscard]] Result<Date> date_before_today(const std::string& text);

/// Makes every option that takes a number refuse "nan" and "inf", in all commands below: a comparison with a
/// range lets the first one pass.
void refuse_what_is_no_number(CLI::App& app);

/// What was written about a string's make.
struct MakeWords {
    std::string material;
    std::optional<double> diameter_mm;
    std::string wrap_material;
    std::optional<double> wrap_outer_mm;
    std::optional<double> linear_density_g_m;
    std::string supplier;
};
void add_make_options(CLI::App& subcommand, MakeWords& words);
/// The make so described; where a word is missing, `base` fills in.
[[nodiscard]] StringMake make_from(const MakeWords& words, const StringMake& base = {});

} // namespace harpkeep::cli
