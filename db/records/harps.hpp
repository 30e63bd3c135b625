// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/harp_record.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::db {

/// Puts a harp into the ledger.
///
/// Returns  its key; refused when a harp of that name is there, whatever its case
[[nodiscard]] Result<Uuid> add_harp(Ledger& ledger, const Author& author, const HarpDetails& details);

/// States anew what a harp is; the fact before stays readable. Refused: a name that another harp has, a
/// compass that loses a place on which a string is or was.
[[nodiscard]] Result<void> change_harp(Ledger& ledger, const Author& author, const Uuid& harp_id,
                                       const HarpDetails& details, const std::string& reason);

/// All harps, by name.
[[nodiscard]] Result<std::vector<HarpRecord>> harps(const Ledger& ledger);

/// The name of each harp, those that are gone too, by name: all that most lists want to know.
/// A harp as a list to choose from has it.
struct HarpLine {
    Uuid id;
    std::string name;
    HarpKind kind = HarpKind::pedal;
    bool left = false; ///< it is no longer there
};
/// By name.
[[nodiscard]] Result<std::vector<HarpLine>> harp_lines(const Ledger& ledger);

[[nodiscard]] Result<std::vector<Record<std::string>>> harp_names(const Ledger& ledger);

/// The harp of this name, whatever its case, or of this handle; not found names the harps that there are.
/// Refused when two of that name came together by a merge.
[[nodiscard]] Result<HarpRecord> harp_named(const Ledger& ledger, std::string_view name);

[[nodiscard]] Result<HarpRecord> harp_with_id(const Ledger& ledger, const Uuid& harp_id);

} // namespace harpkeep::db
