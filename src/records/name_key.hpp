// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// What makes two names the same name to a person: composed, case folded, spaces at the ends dropped and
/// inner ones reduced to one. "Élan " and "élan" have one key.
///
/// Returns    the key; nothing when the name is not UTF-8, is empty, or holds control characters
/// Reference  Unicode Standard, 3.13 (default case folding) and UAX #15 (NFC), by libutf8proc
[[nodiscard]] std::optional<std::string> name_key(std::string_view name);

/// The name as it is kept: as written, without spaces at the ends.
[[nodiscard]] std::string trimmed(std::string_view name);

/// Names of harps, rooms and people, makers and serial numbers have at most so many letters: more fit no list
/// and no sheet of paper.
inline constexpr std::size_t longest_name = 100;

/// What to say of a name that is longer; nothing when it is not.
///
/// Given  what  as in "the name of a harp"
[[nodiscard]] std::optional<std::string> too_long(std::string_view name, std::string_view what);

} // namespace harpkeep
