// SPDX-License-Identifier: MIT
#pragma once

#include "base/sha256.hpp"
#include "harp/string_place.hpp"
#include "records/record.hpp"
#include "units/date.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// A file kept with a note; its bytes are in the ledger under their hash.
struct NoteAttachment {
    std::string file_name;
    Sha256Hash sha256{};
    std::int64_t size_bytes = 0;

    bool operator==(const NoteAttachment&) const = default;
};

/// Somebody's words about a thing of the ledger, a string place of a harp, or nothing in particular.
struct Note {
    std::optional<Uuid> about_id;
    std::optional<StringPlace> place;
    Date noted_on;
    std::string words;
    std::vector<NoteAttachment> attachments;

    bool operator==(const Note&) const = default;
};
using NoteRecord = Record<Note>;

} // namespace harpkeep
