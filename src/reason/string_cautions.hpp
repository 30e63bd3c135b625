// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

/// What is said wherever work on strings can hurt somebody or the harp (common practice).
namespace harpkeep::cautions {

inline constexpr std::string_view many_strings = "The strings of a concert harp pull about 10 kN together: "
                                                 "never loosen or tighten many at once, and follow "
                                                 "the maker's order.";
inline constexpr std::string_view gauge =
    "A wrong gauge can overload neck and soundboard: ask the maker before stringing otherwise than planned.";
inline constexpr std::string_view removal =
    "Let the tension down before a string is cut, one string at a time, and wear eye protection.";
inline constexpr std::string_view moving =
    "A concert harp weighs about 36 kg: move it with two people or a dolly.";
inline constexpr std::string_view estimate = "Estimates are statistics, not promises.";

} // namespace harpkeep::cautions
