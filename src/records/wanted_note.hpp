// SPDX-License-Identifier: MIT
#pragma once

#include "records/note_record.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// A note whose words begin so asks for parts at the next visit: felts, discs, rods.
inline constexpr std::string_view wanted_prefix = "wanted: ";

/// What a note asks for: its words after "wanted:", the letters in either case; nothing for other notes.
[[nodiscard]] std::optional<std::string> wanted_part(const Note& note);

/// The words of a note that asks for a part.
[[nodiscard]] std::string wanted_words(std::string_view part);

} // namespace harpkeep
