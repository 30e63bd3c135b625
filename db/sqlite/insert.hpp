// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace harpkeep::db {

/// What a column of a row can hold.
using StoredValue =
    std::variant<std::monostate, std::int64_t, double, std::string, std::vector<std::uint8_t>>;

void bind_value(Statement& statement, const char* name, const StoredValue& value);

/// One row to be inserted: each column is named once, beside its value.
///
///     Insert{database, "visit"}.set("fact_no", fact.value).set("technician", name).run();
class Insert {
  public:
    Insert(const Database& database, std::string_view table) : database_(database), table_(table) {}

    Insert& set(std::string_view column, std::int64_t value) { return put(column, value); }
    Insert& set(std::string_view column, int value) { return put(column, std::int64_t{value}); }
    Insert& set(std::string_view column, double value) { return put(column, value); }
    Insert& set(std::string_view column, std::string_view value) { return put(column, std::string{value}); }
    Insert& set(std::string_view column, const std::string& value) { return put(column, value); }
    Insert& set(std::string_view column, const char* value) { return put(column, std::string{value}); }
    Insert& set(std::string_view column, std::span<const std::uint8_t> bytes)
    {
        return put(column, std::vector<std::uint8_t>{bytes.begin(), bytes.end()});
    }
    Insert& set(std::string_view column, const Uuid& uuid) { return set(column, std::span{uuid.bytes}); }
    template <class T>
    Insert& set(std::string_view column, const std::optional<T>& value)
    {
        return value ? set(column, *value) : put(column, std::monostate{});
    }

    Insert& set_value(std::string_view column, StoredValue value) { return put(column, std::move(value)); }

    void run();

  private:
    Insert& put(std::string_view column, StoredValue value);

    const Database& database_;
    std::string table_;
    std::vector<std::pair<std::string, StoredValue>> columns_;
};

} // namespace harpkeep::db
