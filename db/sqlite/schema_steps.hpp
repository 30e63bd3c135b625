// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string_view>

namespace harpkeep::db {

/// One step of the schema, forward only; `version` is the user_version after it.
struct SchemaStep {
    int version;
    std::string_view name;
    std::string_view sql;
};

/// All steps, ascending without gaps from 1; embedded from db/schema/ at build time.
[[nodiscard]] std::span<const SchemaStep> schema_steps();

} // namespace harpkeep::db
