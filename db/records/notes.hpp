// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/note_record.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// The largest file that a note can keep.
inline constexpr std::int64_t largest_attachment_bytes = 16'777'216;

/// Somebody's words, and copies of the files named.
///
/// Given    files  their names and sizes are noted and their bytes kept under their hash
/// Returns  the key; unavailable when a file cannot be read, refused when it is too large
[[nodiscard]] Result<Uuid> add_note(Ledger& ledger, const Author& author, const Note& note,
                                    const std::vector<std::string>& files = {});

/// Notes about a thing, or about one string place of a harp; without a thing, all notes. Oldest first.
[[nodiscard]] Result<std::vector<NoteRecord>> notes(const Ledger& ledger,
                                                    const std::optional<Uuid>& about_id = std::nullopt,
                                                    std::optional<StringPlace> place = std::nullopt);

/// The bytes of an attachment.
[[nodiscard]] Result<std::vector<std::uint8_t>> attachment(const Ledger& ledger, const Sha256Hash& sha256);

} // namespace harpkeep::db
