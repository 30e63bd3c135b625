// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/harp_layout.hpp"
#include "harp/letter.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// The accidental of each letter, as seven pedals set it: -1 flat, 0 natural, +1 sharp, by Letter.
struct PedalSetting {
    std::array<int, 7> alterations{};

    [[nodiscard]] int of(Letter letter) const { return alterations[static_cast<std::size_t>(letter)]; }
    bool operator==(const PedalSetting&) const = default;
};

/// "^v^|-^-v": pedals D C B | E F G A, ^ flat (pedal up), - natural, v sharp.
[[nodiscard]] std::string pedal_notation(const PedalSetting& setting);

/// "D C# Bb | E F# G A": the same in letters, with # and b, or with the signs themselves.
[[nodiscard]] std::string spelled(const PedalSetting& setting, bool with_signs = false);

/// The setting written in any of the ways a harpist may: notation ("^v^|-^-v"), letters ("D C# Bb E F# G A",
/// any order, each letter once), or the name of a key ("E flat major", "Bb", "c# minor", "a harmonic minor").
///
/// Returns    the setting, or what was wrong with the text and the ways to write it
/// Notes      A key without a word is major; minor is natural minor unless harmonic or melodic is said.
[[nodiscard]] Result<PedalSetting> pedal_setting_from_text(std::string_view text);

/// A key that seven pedals can be set to, with its setting.
struct KeySetting {
    std::string name; ///< "E flat major"
    PedalSetting setting;
};

/// The fifteen major keys, C flat to C sharp; with `minors` also the natural and harmonic minor ones that
/// need no double sharp.
[[nodiscard]] std::vector<KeySetting> all_key_settings(bool minors);

/// All 2,187 settings of seven pedals.
[[nodiscard]] std::vector<PedalSetting> all_pedal_settings();

/// The position in which a string sounds its letter with this accidental; nothing when it cannot.
[[nodiscard]] std::optional<Position> position_for(HarpKind kind, const HarpString& string, int alteration);

} // namespace harpkeep
