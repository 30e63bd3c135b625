// SPDX-License-Identifier: MIT
#pragma once

#include "records/uuid.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::db {

/// A prepared statement. Parameters are bound by name; columns are read in their order, from the left.
///
/// Notes  Every function throws LedgerFailure when SQLite refuses.
class Statement {
  public:
    struct Implementation;
    explicit Statement(std::unique_ptr<Implementation> implementation);
    Statement(Statement&&) noexcept;
    Statement& operator=(Statement&&) noexcept;
    ~Statement();

    Statement& bind(const char* name, std::int64_t value);
    Statement& bind(const char* name, int value) { return bind(name, std::int64_t{value}); }
    Statement& bind(const char* name, bool value) { return bind(name, std::int64_t{value ? 1 : 0}); }
    Statement& bind(const char* name, double value);
    Statement& bind(const char* name, std::string_view value);
    Statement& bind(const char* name, const std::string& value)
    {
        return bind(name, std::string_view{value});
    }
    Statement& bind(const char* name, const char* value) { return bind(name, std::string_view{value}); }
    Statement& bind(const char* name, std::span<const std::uint8_t> bytes);
    Statement& bind(const char* name, const Uuid& uuid) { return bind(name, std::span{uuid.bytes}); }
    Statement& bind_null(const char* name);
    template <class T>
    Statement& bind(const char* name, const std::optional<T>& value)
    {
        return value ? bind(name, *value) : bind_null(name);
    }

    /// The next row, if there is one; reading starts again at its first column.
    bool step();
    /// Runs a statement that gives no rows, and makes it ready to be bound again.
    void run();
    /// Makes the statement ready to be bound and stepped again.
    void reset();

    [[nodiscard]] std::int64_t integer();
    [[nodiscard]] int small_integer() { return static_cast<int>(integer()); }
    [[nodiscard]] bool boolean() { return integer() != 0; }
    [[nodiscard]] double real();
    [[nodiscard]] std::string text();
    [[nodiscard]] std::vector<std::uint8_t> bytes();
    [[nodiscard]] Uuid uuid();
    [[nodiscard]] std::optional<std::int64_t> optional_integer();
    [[nodiscard]] std::optional<double> optional_real();
    [[nodiscard]] std::optional<std::string> optional_text();
    [[nodiscard]] std::optional<Uuid> optional_uuid();

    [[nodiscard]] int column_count() const;
    [[nodiscard]] std::string column_name(int column) const;
    /// Whether the next column to be read is NULL.
    [[nodiscard]] bool next_is_null() const;

  private:
    std::unique_ptr<Implementation> implementation_;
};

} // namespace harpkeep::db
