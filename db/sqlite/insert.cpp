// SPDX-License-Identifier: MIT
#include "db/sqlite/insert.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

struct Binder {
    Statement& statement;
    const char* name;

    void operator()(std::monostate) const { statement.bind_null(name); }
    void operator()(const std::vector<std::uint8_t>& bytes) const { statement.bind(name, std::span{bytes}); }
    void operator()(const auto& value) const { statement.bind(name, value); }
};

} // namespace

void bind_value(Statement& statement, const char* name, const StoredValue& value)
{
    std::visit(Binder{statement, name}, value);
}

Insert& Insert::put(std::string_view column, StoredValue value)
{
    columns_.emplace_back(column, std::move(value));
    return *this;
}

void Insert::run()
{
    std::vector<std::string> names, parameters;
    for (const auto& [column, value] : columns_) {
        names.push_back(column);
        parameters.push_back(":" + column);
    }
    auto statement = database_.prepare(fmt::format("INSERT INTO {} ({}) VALUES ({})", table_,
                                                   fmt::join(names, ", "), fmt::join(parameters, ", ")));
    for (std::size_t i = 0; i < columns_.size(); ++i)
        bind_value(statement, parameters[i].c_str(), columns_[i].second);
    statement.run();
}

} // namespace harpkeep::db
