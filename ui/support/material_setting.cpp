// SPDX-License-Identifier: MIT
#include "ui/support/material_setting.hpp"

#include "db/records/settings.hpp"

namespace harpkeep::ui {

Result<MaterialTable> own_materials(const db::Ledger& ledger)
{
    const auto stored = db::setting(ledger, material_setting_name, std::nullopt);
    if (!stored) return failure(stored.error());
    if (!*stored) return MaterialTable{};
    auto own = materials_from_json(**stored);
    if (!own) return failure(own.error().within("reading the materials that the ledger keeps"));
    return own;
}

Result<MaterialTable> materials_of(const db::Ledger& ledger)
{
    const auto own = own_materials(ledger);
    if (!own) return failure(own.error());
    return merged(remembered_materials(), *own);
}

Result<void> keep_own_materials(db::Ledger& ledger, const db::Author& author, const MaterialTable& own)
{
    const auto json = materials_to_json(own);
    const auto read_again = materials_from_json(json); // the rules of a table, before it is kept
    if (!read_again) return failure(ErrorCode::invalid_argument, read_again.error().message);
    return db::change_setting(ledger, author, material_setting_name, std::nullopt, json);
}

} // namespace harpkeep::ui
