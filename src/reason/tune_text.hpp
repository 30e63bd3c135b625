// SPDX-License-Identifier: MIT
#pragma once

#include "reason/enharmonics.hpp"
#include "reason/tune_around.hpp"
#include "reason/usable_settings.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

// Tuning around faults, enharmonics and settings in sentences for people.

/// "flat", "natural", "sharp".
[[nodiscard]] std::string_view alteration_words(int alteration);

/// "4C flat: 244.51 Hz, −3.2 cents ..." one line of the list to tune by.
[[nodiscard]] std::string tuning_line(const TunedString& string);

/// Before and after, what is impossible, what is unknown.
[[nodiscard]] std::vector<std::string> tune_around_sentences(const TuneAroundResult& result);

/// "4C sharp and 4D flat: D flat sounds 5.0 ± 0.8 cents lower, 0.8 beats a second, from 3 readings."
[[nodiscard]] std::string enharmonic_sentence(const EnharmonicPair& pair);

/// "E major (D# C# B | E F# G# A): within tolerance, greatest error ... at 3G sharp."
[[nodiscard]] std::string setting_sentence(const SettingUse& use);

/// How many settings are usable today and what it rests on.
[[nodiscard]] std::vector<std::string> usable_sentences(const UsableSettings& usable);

} // namespace harpkeep
