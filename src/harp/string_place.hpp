// SPDX-License-Identifier: MIT
#pragma once

#include "harp/letter.hpp"

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// A string's place on a harp; it outlives the strings that are put there.
///
/// Notes  Kept as letter and scientific octave; the harp name and the number follow from them. The letter
///        owns the octave: C flat 4 sounds B3.
struct StringPlace {
    Letter letter = Letter::C;
    int scientific_octave = 4;

    bool operator==(const StringPlace&) const = default;
    /// Lower places first.
    auto operator<=>(const StringPlace& other) const { return diatonic_index() <=> other.diatonic_index(); }

    /// Diatonic steps above C0: neighbouring strings differ by one.
    [[nodiscard]] constexpr int diatonic_index() const
    {
        return 7 * scientific_octave + static_cast<int>(letter);
    }
    /// Harp octaves count down from the treble and run E down to F: 0G 0F, 1E..1F, ... 7E 7D 7C.
    [[nodiscard]] constexpr int harp_octave() const
    {
        return (letter <= Letter::E ? 8 : 7) - scientific_octave;
    }
    /// Number in the order of pedal harps, 1E = 1 ... 7C = 45; 0F is 0 and 0G is -1.
    [[nodiscard]] constexpr int number_from_1e() const { return 52 - diatonic_index(); }
};

[[nodiscard]] constexpr StringPlace place_from_diatonic_index(int index)
{
    return {static_cast<Letter>(index % 7), index / 7};
}

/// "4C": the harp octave name, shown first everywhere.
[[nodiscard]] std::string harp_name(StringPlace place);
/// "C4": the scientific name.
[[nodiscard]] std::string scientific_name(StringPlace place);

/// The place with this harp octave name ("4C", "0g", also "00G" for the top strings); nothing when it is
/// none.
[[nodiscard]] std::optional<StringPlace> place_from_harp_name(std::string_view name);

/// The place with this scientific name ("C4").
[[nodiscard]] std::optional<StringPlace> place_from_scientific_name(std::string_view name);

} // namespace harpkeep
