// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "strings/material.hpp"

#include <string_view>

namespace harpkeep::ui {

/// Under this name the ledger keeps the owner's own materials, as materials_to_json() writes them.
inline constexpr std::string_view material_setting_name = "materials";

/// The materials that the owner has set; none when nobody has set any.
[[nodiscard]] Result<MaterialTable> own_materials(const db::Ledger& ledger);

/// The remembered materials with the owner's own in their place.
[[nodiscard]] Result<MaterialTable> materials_of(const db::Ledger& ledger);

/// Keeps these as the owner's own, in the place of all that were kept before.
[[nodiscard]] Result<void> keep_own_materials(db::Ledger& ledger, const db::Author& author,
                                              const MaterialTable& own);

} // namespace harpkeep::ui
