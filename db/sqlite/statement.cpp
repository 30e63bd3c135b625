// SPDX-License-Identifier: MIT
#include "db/sqlite/statement.hpp"

#include "base/expects.hpp"
#include "db/sqlite/connection.hpp"

#include <algorithm>

namespace harpkeep::db {

namespace {

SQLite::Column next_column(Statement::Implementation& statement)
{
    return translated(statement.path, [&] { return statement.handle.getColumn(statement.next_column++); });
}

} // namespace

Statement::Statement(std::unique_ptr<Implementation> implementation)
    : implementation_(std::move(implementation))
{
}
Statement::Statement(Statement&&) noexcept = default;
Statement& Statement::operator=(Statement&&) noexcept = default;
Statement::~Statement() = default;

Statement& Statement::bind(const char* name, std::int64_t value)
{
    translated(implementation_->path, [&] { implementation_->handle.bind(name, value); });
    return *this;
}

Statement& Statement::bind(const char* name, double value)
{
    translated(implementation_->path, [&] { implementation_->handle.bind(name, value); });
    return *this;
}

Statement& Statement::bind(const char* name, std::string_view value)
{
    translated(implementation_->path, [&] { implementation_->handle.bind(name, std::string{value}); });
    return *this;
}

Statement& Statement::bind(const char* name, std::span<const std::uint8_t> bytes)
{
    // A null pointer would bind NULL, not an empty blob.
    static constexpr std::uint8_t nothing = 0;
    const void* data = bytes.empty() ? &nothing : bytes.data();
    translated(implementation_->path,
               [&] { implementation_->handle.bind(name, data, static_cast<int>(bytes.size())); });
    return *this;
}

Statement& Statement::bind_null(const char* name)
{
    translated(implementation_->path, [&] { implementation_->handle.bind(name); });
    return *this;
}

bool Statement::step()
{
    implementation_->next_column = 0;
    return translated(implementation_->path, [&] { return implementation_->handle.executeStep(); });
}

void Statement::run()
{
    const bool row = step();
    HARPKEEP_EXPECTS(!row);
    reset();
}

void Statement::reset()
{
    translated(implementation_->path, [&] { implementation_->handle.reset(); });
}

std::int64_t Statement::integer()
{
    return next_column(*implementation_).getInt64();
}

double Statement::real()
{
    return next_column(*implementation_).getDouble();
}

std::string Statement::text()
{
    return next_column(*implementation_).getString();
}

std::vector<std::uint8_t> Statement::bytes()
{
    const auto column = next_column(*implementation_);
    const auto* data = static_cast<const std::uint8_t*>(column.getBlob());
    return {data, data + column.getBytes()};
}

Uuid Statement::uuid()
{
    const auto stored = bytes();
    Uuid uuid;
    if (stored.size() != uuid.bytes.size())
        fail(ErrorCode::corrupt, implementation_->path + ": a key is not 16 bytes long; see `harpkeep ledger "
                                                         "verify`");
    std::copy(stored.begin(), stored.end(), uuid.bytes.begin());
    return uuid;
}

std::optional<std::int64_t> Statement::optional_integer()
{
    const auto column = next_column(*implementation_);
    if (column.isNull()) return std::nullopt;
    return column.getInt64();
}

std::optional<double> Statement::optional_real()
{
    const auto column = next_column(*implementation_);
    if (column.isNull()) return std::nullopt;
    return column.getDouble();
}

std::optional<std::string> Statement::optional_text()
{
    const auto column = next_column(*implementation_);
    if (column.isNull()) return std::nullopt;
    return column.getString();
}

std::optional<Uuid> Statement::optional_uuid()
{
    if (!next_is_null()) return uuid();
    ++implementation_->next_column;
    return std::nullopt;
}

int Statement::column_count() const
{
    return implementation_->handle.getColumnCount();
}

std::string Statement::column_name(int column) const
{
    return translated(implementation_->path,
                      [&] { return std::string{implementation_->handle.getColumnName(column)}; });
}

bool Statement::next_is_null() const
{
    return translated(implementation_->path,
                      [&] { return implementation_->handle.isColumnNull(implementation_->next_column); });
}

} // namespace harpkeep::db
