// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::cli {

/// Keeps the order in which members are written.
using Json = nlohmann::ordered_json;

/// Prints one JSON document and a line end.
void print_json(const Json& document);
/// Prints one JSON document on one line: for commands that give one object a line.
void print_json_line(const Json& document);

/// The value, or null.
template <class T>
[[nodiscard]] Json json_or_null(const std::optional<T>& value)
{
    return value ? Json(*value) : Json(nullptr);
}

/// A table for people: a heading, then rows, columns as wide as their widest cell on the screen.
class Table {
  public:
    enum class Align { left, right };
    struct Column {
        std::string heading;
        Align align = Align::left;
    };

    explicit Table(std::vector<Column> columns);
    /// Given  as many cells as there are columns
    void add_row(std::vector<std::string> cells);
    [[nodiscard]] bool empty() const { return rows_.empty(); }
    [[nodiscard]] std::string text() const;
    void print() const;

  private:
    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;
};

/// A line of text and a line end.
void print_line(std::string_view text);

/// "1 string", "3 strings": English plurals that take an s.
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

} // namespace harpkeep::cli
