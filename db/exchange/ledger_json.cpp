// SPDX-License-Identifier: MIT
#include "db/exchange/ledger_json.hpp"

#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "db/sqlite/transaction.hpp"
#include "exchange/exact_decimal.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <istream>
#include <nlohmann/json.hpp>
#include <ostream>

namespace harpkeep::db {

namespace {

using Json = nlohmann::json;

constexpr std::string_view format_name = "harpkeep ledger";
constexpr std::int64_t format_version = 1;

std::string quoted(const std::string& text)
{
    return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

class JsonSink : public RowSink {
  public:
    explicit JsonSink(std::ostream& stream) : stream_(stream) {}

    void begin_table(const ExchangeTable& table) override
    {
        stream_ << (first_table_ ? "\n" : ",\n") << quoted(table.info.name) << ": [";
        first_table_ = false;
        first_row_ = true;
    }
    void row(const ExchangeTable& table, const std::vector<Cell>& cells) override
    {
        stream_ << (first_row_ ? "\n{" : ",\n{");
        first_row_ = false;
        for (std::size_t i = 0; i < cells.size(); ++i)
            stream_ << (i == 0 ? "" : ", ") << quoted(table.columns[i].name) << ": "
                    << value(table.columns[i], cells[i]);
        stream_ << '}';
        if (!stream_)
            fail(ErrorCode::unavailable, "the file cannot be written; see whether the disk is full");
    }
    void end_table() override { stream_ << (first_row_ ? "]" : "\n]"); }

  private:
    static std::string value(const ExchangeColumn& column, const Cell& cell)
    {
        if (!cell) return "null";
        if (column.form == CellForm::yes_no) return *cell == "yes" ? "true" : "false";
        return column.is_numeric() && finite_number(*cell) ? *cell : quoted(*cell);
    }

    std::ostream& stream_;
    bool first_table_ = true;
    bool first_row_ = true;
};

/// Reads the document as its tokens come.
class Reader : public nlohmann::json_sax<Json> {
  public:
    explicit Reader(const Database& target) : target_(target) {}

    /// What was wrong; when nothing was, the rows are there to stay.
    [[nodiscard]] std::vector<std::string> finish()
    {
        if (problems_.empty() && !ended_) problem("the document ends too early");
        if (problems_.empty() && !loader_) problem("the document has no tables");
        if (problems_.empty()) transaction_->commit();
        return problems_;
    }

    bool null() override { return value(std::nullopt); }
    bool boolean(bool yes) override { return value(yes ? "yes" : "no"); }
    bool number_integer(number_integer_t number) override { return value(std::to_string(number)); }
    bool number_unsigned(number_unsigned_t number) override { return value(std::to_string(number)); }
    bool number_float(number_float_t, const string_t& text) override { return value(text); }
    bool string(string_t& text) override { return value(text); }
    bool binary(binary_t&) override { return problem("the document is no text"); }

    bool start_object(std::size_t) override
    {
        if (level_ == Level::outside) return go(Level::document);
        if (level_ == Level::document && key_ == "tables") return begin_tables();
        if (level_ != Level::rows) return problem(fmt::format("{}: an object where none belongs", where()));
        cells_.assign(table_->columns.size(), std::nullopt);
        ++row_;
        return go(Level::row);
    }
    bool end_object() override
    {
        if (level_ == Level::row) {
            level_ = Level::rows;
            return load();
        }
        ended_ = level_ == Level::document;
        return go(level_ == Level::tables ? Level::document : Level::outside);
    }
    bool start_array(std::size_t) override
    {
        if (level_ != Level::tables) return problem(fmt::format("{}: a list where none belongs", where()));
        return begin_table();
    }
    bool end_array() override { return go(Level::tables); }

    bool key(string_t& name) override
    {
        key_ = name;
        if (level_ != Level::row) return true;
        const auto& columns = table_->columns;
        const auto found = std::find_if(columns.begin(), columns.end(),
                                        [&](const ExchangeColumn& column) { return column.name == name; });
        if (found == columns.end()) return problem(fmt::format("{}: the table has no such column", where()));
        column_ = static_cast<std::size_t>(found - columns.begin());
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& error) override
    {
        return problem(error.what());
    }

  private:
    enum class Level { outside, document, tables, rows, row };

    bool go(Level level)
    {
        level_ = level;
        return true;
    }
    /// Goes on after a problem in a row, so that all are told; not after one in the frame.
    bool problem(std::string words)
    {
        problems_.push_back(std::move(words));
        return false;
    }
    [[nodiscard]] std::string where() const
    {
        if (level_ == Level::row || level_ == Level::rows)
            return fmt::format("table {}, row {}, {}", table_->info.name, row_, key_);
        return key_.empty() ? "the document" : key_;
    }
    bool value(Cell cell)
    {
        if (level_ == Level::row) {
            cells_[column_] = std::move(cell);
            return true;
        }
        if (level_ != Level::document) return problem(fmt::format("{}: a value where none belongs", where()));
        if (key_ == "format") is_ledger_ = cell == format_name;
        if (key_ == "schema_version") schema_version_ = whole_number(cell.value_or("")).value_or(0);
        if (key_ == "version" && whole_number(cell.value_or("")).value_or(0) != format_version)
            return problem(fmt::format("version {} of the format is not known here", cell.value_or("null")));
        return true;
    }
    bool begin_tables()
    {
        if (!is_ledger_)
            return problem(fmt::format("the document does not begin with \"format\": \"{}\"", format_name));
        if (schema_version_ < 1) return problem("the document names no \"schema_version\" before its tables");
        if (schema_version_ > newest_schema_version())
            return problem(
                fmt::format("it was written by a later version of harpkeep (schema {}, this one knows {})",
                            schema_version_, newest_schema_version()));
        migrate_to(target_, schema_version_);
        transaction_.emplace(target_, Transaction::Kind::write);
        loader_.emplace(target_);
        return go(Level::tables);
    }
    bool begin_table()
    {
        for (const ExchangeTable& table : loader_->tables())
            if (table.info.name == key_) table_ = &table;
        if (table_ == nullptr || table_->info.name != key_)
            return problem(fmt::format("{}: the ledger has no such table", key_));
        row_ = 0;
        loader_->begin_table(*table_);
        return go(Level::rows);
    }
    bool load()
    {
        if (table_->info.name == "thing_kind") return true; // the schema itself fills it
        for (const RowProblem& found : loader_->load(cells_)) {
            key_ = table_->columns[found.column].name;
            problems_.push_back(fmt::format("{}: {}", where(), found.what));
        }
        return problems_.size() < most_problems;
    }

    static constexpr std::size_t most_problems = 20;

    const Database& target_;
    std::optional<Transaction> transaction_;
    std::optional<RowLoader> loader_;
    const ExchangeTable* table_ = nullptr;
    Level level_ = Level::outside;
    std::string key_;
    std::size_t column_ = 0;
    std::size_t row_ = 0;
    std::vector<Cell> cells_;
    std::vector<std::string> problems_;
    std::int64_t schema_version_ = 0;
    bool is_ledger_ = false;
    bool ended_ = false;
};

} // namespace

void write_ledger_json(const Ledger& ledger, Moment now, std::ostream& stream)
{
    stream << "{\n\"format\": " << quoted(std::string{format_name}) << ",\n\"version\": " << format_version
           << ",\n\"schema_version\": " << schema_version(ledger.database())
           << ",\n\"written\": " << quoted(iso_time(now)) << ",\n\"tables\": {";
    JsonSink sink{stream};
    send_rows(ledger.database(), sink);
    stream << "\n}\n}\n";
    stream.flush();
    if (!stream) fail(ErrorCode::unavailable, "the file cannot be written; see whether the disk is full");
}

std::vector<std::string> read_ledger_json(std::istream& stream, const Database& target)
{
    Reader reader{target};
    (void)Json::sax_parse(stream, &reader); // the reader itself notes why it stopped
    return reader.finish();
}

} // namespace harpkeep::db
