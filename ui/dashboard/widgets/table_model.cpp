// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/table.hpp"

#include <algorithm>
#include <cstdlib>
#include <numeric>

namespace harpkeep::dashboard {

namespace {

std::string lowered(std::string_view text)
{
    std::string out{text};
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

std::vector<std::string> words_of(std::string_view text)
{
    std::vector<std::string> words;
    std::string word;
    for (const char c : lowered(text) + ' ') {
        if (c != ' ')
            word += c;
        else if (!word.empty())
            words.push_back(std::exchange(word, {}));
    }
    return words;
}

bool holds(const TableRow& row, const std::vector<std::string>& words)
{
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
        return std::any_of(row.cells.begin(), row.cells.end(), [&](const TableCell& cell) {
            return lowered(cell.text).find(word) != std::string::npos;
        });
    });
}

bool empty(const TableCell& cell)
{
    return !cell.sort_by && cell.text.empty();
}

bool is_number(const std::string& text)
{
    char* end = nullptr;
    std::strtod(text.c_str(), &end);
    return end != text.c_str() && *end == '\0';
}

std::string quoted(const std::string& text)
{
    std::string safe = text;
    // What a spreadsheet would run; a number with its sign is none.
    if (!safe.empty() && std::string_view{"=@+-\t\r"}.find(safe[0]) != std::string_view::npos &&
        !is_number(safe))
        safe.insert(safe.begin(), '\'');
    if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
    std::string out = "\"";
    for (const char c : safe) out += c == '"' ? "\"\"" : std::string(1, c);
    return out + '"';
}

} // namespace

std::vector<std::size_t> columns_with_room(const TableModel& model, float room)
{
    constexpr float padding = 16.0F; // of a cell, left and right
    std::vector<std::size_t> shown(model.columns.size());
    std::iota(shown.begin(), shown.end(), std::size_t{0});
    const auto leaves = [&](std::size_t column) { return model.columns[column].leaves; };
    while (true) {
        float wanted = 0.0F;
        for (const auto column : shown) wanted += model.columns[column].width + padding;
        const auto next = std::max_element(shown.begin(), shown.end(),
                                           [&](auto a, auto b) { return leaves(a) < leaves(b); });
        if (wanted <= room || next == shown.end() || leaves(*next) == 0) return shown;
        shown.erase(next);
    }
}

std::vector<int> arranged_rows(const TableModel& model, const TableState& state)
{
    const auto words = words_of(state.filter);
    std::vector<int> order;
    for (int i = 0; i < static_cast<int>(model.rows.size()); ++i)
        if (holds(model.rows[static_cast<std::size_t>(i)], words)) order.push_back(i);
    if (state.sort_column < 0 || state.sort_column >= static_cast<int>(model.columns.size())) return order;

    const auto column = static_cast<std::size_t>(state.sort_column);
    const auto cell = [&](int row) -> const TableCell& {
        return model.rows[static_cast<std::size_t>(row)].cells[column];
    };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
        const auto& first = cell(a);
        const auto& second = cell(b);
        if (empty(first) != empty(second)) return empty(second);
        if (first.sort_by && second.sort_by)
            return state.descending ? *first.sort_by > *second.sort_by : *first.sort_by < *second.sort_by;
        const auto left = lowered(first.text), right = lowered(second.text);
        return state.descending ? left > right : left < right;
    });
    return order;
}

void arrange(TableState& state)
{
    if (state.arranged) return;
    state.order = arranged_rows(state.model, state);
    state.arranged = true;
}

std::string csv_of(const TableModel& model, const std::vector<int>& order)
{
    std::string out;
    for (std::size_t c = 0; c < model.columns.size(); ++c)
        out += (c > 0 ? "," : "") + quoted(model.columns[c].title);
    out += "\r\n";
    for (const int row : order) {
        const auto& cells = model.rows[static_cast<std::size_t>(row)].cells;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            std::string text = cells[c].text;
            // Programs read the hyphen as a minus, not the sign that reads best on a screen.
            for (auto at = text.find("\u2212"); at != std::string::npos; at = text.find("\u2212"))
                text.replace(at, 3, "-");
            out += (c > 0 ? "," : "") + quoted(text);
        }
        out += "\r\n";
    }
    return out;
}

} // namespace harpkeep::dashboard
