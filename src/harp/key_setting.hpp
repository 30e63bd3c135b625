// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/harp_layout.hpp"
#include "harp/pedal_setting.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// A setting as a harpist may ask for it: a key ("E flat major", "Bb", "c# minor", "Am", "a harmonic minor"),
/// a diagram ("^v^|-^-v"), or the letters ("D C# Bb | E F# G A").
///
/// Returns    the setting, or what was wrong with the text and the ways to write it
/// Notes      A key without a word is major; minor is natural minor unless harmonic or melodic is said. A
///            letter alone is the key, so "A" is A major.
[[nodiscard]] Result<PedalSetting> setting_from_text(std::string_view text);

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
