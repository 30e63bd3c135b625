// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>

namespace harpkeep {

/// The seven letter names; the value is the diatonic step above C.
enum class Letter { C, D, E, F, G, A, B };

inline constexpr std::array<Letter, 7> all_letters{Letter::C, Letter::D, Letter::E, Letter::F,
                                                   Letter::G, Letter::A, Letter::B};

/// The pedals as the player sees them, left to right: D C B for the left foot, E F G A for the right
/// (common practice; the same order in MusicXML 4.0 harp-pedals).
inline constexpr std::array<Letter, 7> pedal_order{Letter::D, Letter::C, Letter::B, Letter::E,
                                                   Letter::F, Letter::G, Letter::A};

/// Semitones of the natural letter above C.
[[nodiscard]] constexpr int semitones_above_c(Letter letter)
{
    constexpr std::array<int, 7> semitones{0, 2, 4, 5, 7, 9, 11};
    return semitones[static_cast<std::size_t>(letter)];
}

[[nodiscard]] constexpr char letter_name(Letter letter)
{
    return "CDEFGAB"[static_cast<std::size_t>(letter)];
}

/// The letter written as `name`, upper or lower case.
[[nodiscard]] constexpr std::optional<Letter> letter_from_name(char name)
{
    for (const Letter letter : all_letters)
        if (name == letter_name(letter) || name == letter_name(letter) - 'A' + 'a') return letter;
    return std::nullopt;
}

} // namespace harpkeep
