// SPDX-License-Identifier: MIT
#include "harp/string_place.hpp"

#include <fmt/format.h>

namespace harpkeep {

std::string harp_name(StringPlace place)
{
    return fmt::format("{}{}", place.harp_octave(), letter_name(place.letter));
}

std::string scientific_name(StringPlace place)
{
    return fmt::format("{}{}", letter_name(place.letter), place.scientific_octave);
}

std::optional<StringPlace> place_from_harp_name(std::string_view name)
{
    if (name.size() == 3 && name.starts_with("00")) name.remove_prefix(1);
    if (name.size() != 2 || name[0] < '0' || name[0] > '7') return std::nullopt;
    const auto letter = letter_from_name(name[1]);
    if (!letter) return std::nullopt;
    const int octave = name[0] - '0';
    const int scientific = (*letter <= Letter::E ? 8 : 7) - octave;
    if (scientific > 8) return std::nullopt;
    return StringPlace{*letter, scientific};
}

std::optional<StringPlace> place_from_scientific_name(std::string_view name)
{
    if (name.size() != 2 || name[1] < '0' || name[1] > '8') return std::nullopt;
    const auto letter = letter_from_name(name[0]);
    if (!letter) return std::nullopt;
    return StringPlace{*letter, name[1] - '0'};
}

} // namespace harpkeep
