// SPDX-License-Identifier: MIT
#include "ui/cli/arguments.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

Result<StringPlace> place_argument(const std::string& text)
{
    if (const auto place = place_from_harp_name(text)) return *place;
    if (const auto place = place_from_scientific_name(text)) return *place;
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" names no string; write the harp octave and the letter, as in 4C for middle "
                    "C, 0G for the top and 7C for the bottom of a concert harp",
                    text));
}

Result<std::vector<StringPlace>> places_argument(const std::vector<std::string>& texts)
{
    std::vector<StringPlace> places;
    if (texts.size() == 1 && texts.front() == "none") return places;
    for (const std::string& text : texts) {
        const auto place = place_argument(text);
        if (!place) return failure(place.error());
        places.push_back(*place);
    }
    return places;
}

Result<Money> money_argument(const std::string& text)
{
    if (const auto money = money_from_text(text)) return *money;
    return failure(
        ErrorCode::invalid_argument,
        fmt::format("\"{}\" is no amount of money; write it with the currency's three letters, as in "
                    "\"1250.00 EUR\"",
                    text));
}

} // namespace harpkeep::cli
