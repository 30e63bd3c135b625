// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/letter.hpp"
#include "harp/position.hpp"

#include <array>
#include <string>
#include <string_view>

namespace harpkeep {

/// Where the seven pedals of a harp stand.
struct PedalSetting {
    /// Accidental of each letter in semitones, -1 flat, 0 natural, +1 sharp; indexed by Letter.
    std::array<int, 7> alterations{};

    bool operator==(const PedalSetting&) const = default;
    [[nodiscard]] constexpr int alteration(Letter letter) const
    {
        return alterations[static_cast<std::size_t>(letter)];
    }
    constexpr void set(Letter letter, int alteration)
    {
        alterations[static_cast<std::size_t>(letter)] = alteration;
    }
    [[nodiscard]] constexpr Position position(Letter letter) const
    {
        return alteration(letter) < 0 ? Position::flat
                                      : (alteration(letter) == 0 ? Position::natural : Position::sharp);
    }
};

/// "^v^|-^-v": a sign for each pedal from left to right, D C B and E F G A with a bar between the feet; ^ is
/// flat (pedal up), - natural, v sharp (pedal down).
///
/// Reference  W3C MusicXML 4.0, harp-pedals: the drawn form of a pedal diagram, in characters
[[nodiscard]] std::string pedal_diagram(const PedalSetting& setting);

/// "Db C# Bb | E Fb G A#": the letters in the same order.
[[nodiscard]] std::string pedal_names(const PedalSetting& setting);

/// Reads a diagram as above, or the letters in any order with b, # or nothing after each ("Db C# Bb E Fb G
/// A#", "D-flat C-sharp ..."); a letter that is not named is natural.
///
/// Returns  the setting, or what is wrong: a letter twice, a sign that is none
[[nodiscard]] Result<PedalSetting> pedal_setting_from_text(std::string_view text);

} // namespace harpkeep
