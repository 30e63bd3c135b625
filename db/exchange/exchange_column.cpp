// SPDX-License-Identifier: MIT
#include "db/exchange/exchange_column.hpp"

#include "base/sha256.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "exchange/base64.hpp"
#include "exchange/exact_decimal.hpp"
#include "harp/string_place.hpp"
#include "records/money.hpp"
#include "units/date.hpp"
#include "units/moment.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sstream>

namespace harpkeep::db {

namespace {

struct SmallUnit {
    std::string_view stored_end;
    std::string_view written_end;
    int decimals;
};
constexpr std::array small_units{SmallUnit{"_microcents", "_cents", 6}, SmallUnit{"_millicents", "_cents", 3},
                                 SmallUnit{"_billionths", "", 9},       SmallUnit{"_tenths_db", "_db", 1},
                                 SmallUnit{"_millihertz", "_hz", 3},    SmallUnit{"_ms", "_s", 3}};

std::string without_end(const std::string& name, std::string_view end)
{
    return name.substr(0, name.size() - end.size());
}

/// Forms that follow from the name alone.
std::optional<CellForm> named_form(const std::string& name)
{
    if (name == "place") return CellForm::place;
    if (name == "position") return CellForm::position;
    if (name == "step") return CellForm::step;
    if (name == "doubts") return CellForm::doubts;
    if (name == "sha256") return CellForm::hash;
    if (name.starts_with("has_")) return CellForm::yes_no;
    if (name.ends_with("_on") || name == "watched_from") return CellForm::date;
    return std::nullopt;
}

CellForm form_of_type(const std::string& type)
{
    if (type == "INTEGER") return CellForm::whole_number;
    if (type == "REAL") return CellForm::number;
    return type == "BLOB" ? CellForm::bytes : CellForm::words;
}

ExchangeColumn exchange_column(const Column& column)
{
    const std::string& name = column.name;
    ExchangeColumn exchanged{name, CellForm::words, 0, column.points, {name}, column.may_be_null};
    if (column.points != Points::nowhere) {
        exchanged.name = without_end(name, "_no");
        exchanged.form = CellForm::reference;
    } else if (name == "id") {
        exchanged.name = "key";
        exchanged.form = CellForm::key;
    } else if (name.ends_with("_utc_ms")) {
        exchanged.name = without_end(name, "_utc_ms");
        exchanged.form = CellForm::time;
        exchanged.stored.push_back(exchanged.name + "_offset_min");
    } else if (name.ends_with("_minor")) {
        exchanged.name = without_end(name, "_minor");
        exchanged.form = CellForm::money;
        exchanged.stored.push_back(exchanged.name + "_currency");
    } else if (name.ends_with("freedom_tenths")) {
        exchanged.name = without_end(name, "freedom_tenths") + "degrees_of_freedom";
        exchanged.form = CellForm::freedom;
        exchanged.decimals = 1;
    } else if (const auto form = named_form(name)) {
        exchanged.form = *form;
    } else {
        exchanged.form = form_of_type(column.type);
        for (const SmallUnit& unit : small_units)
            if (name.ends_with(unit.stored_end)) {
                exchanged.name = without_end(name, unit.stored_end) + std::string{unit.written_end};
                exchanged.form = CellForm::decimal;
                exchanged.decimals = unit.decimals;
            }
    }
    return exchanged;
}

bool is_left_out(const TableInfo& table, const Column& column)
{
    return column.name == table.name + "_no" || column.name == "name_key" ||
           column.name.ends_with("_offset_min") || column.name.ends_with("_currency");
}

std::string step_word(std::int64_t code)
{
    return code == whole_step_code ? "whole" : std::string{step_name(step_from_code(code))};
}

std::string freedom_word(std::int64_t tenths)
{
    return std::isinf(freedom_from_code(tenths)) ? "infinite" : exact_decimal(tenths, 1);
}

std::string doubts_words(std::int64_t code)
{
    std::vector<std::string> names;
    for (const Doubt doubt : doubts_from_code(code)) {
        std::string name{doubt_name(doubt)};
        std::replace(name.begin(), name.end(), ' ', '_');
        names.push_back(name);
    }
    return fmt::format("{}", fmt::join(names, " "));
}

std::optional<std::int64_t> doubts_code(const std::string& words)
{
    std::vector<Doubt> doubts;
    std::istringstream stream{words};
    std::string name;
    while (stream >> name) {
        std::replace(name.begin(), name.end(), '_', ' ');
        const auto doubt = doubt_from_name(name);
        if (!doubt) return std::nullopt;
        doubts.push_back(*doubt);
    }
    return code_of(doubts);
}

using Values = tl::expected<std::vector<StoredValue>, std::string>;

tl::unexpected<std::string> no_such(const std::string& text, std::string_view wanted)
{
    return tl::unexpected<std::string>(fmt::format("\"{}\" is no {}", text, wanted));
}

template <class T>
Values one(const std::optional<T>& value, const std::string& text, std::string_view wanted)
{
    if (!value) return no_such(text, wanted);
    return std::vector<StoredValue>{StoredValue{*value}};
}

std::optional<std::vector<std::uint8_t>> key_bytes(const std::string& text)
{
    const auto key = uuid_from_string(text);
    if (!key) return std::nullopt;
    return std::vector<std::uint8_t>{key->bytes.begin(), key->bytes.end()};
}

std::optional<std::vector<std::uint8_t>> hash_bytes(const std::string& text)
{
    const auto hash = sha256_from_hex(text);
    if (!hash) return std::nullopt;
    return std::vector<std::uint8_t>{hash->begin(), hash->end()};
}

std::optional<std::int64_t> place_code(const std::string& text)
{
    auto place = place_from_harp_name(text);
    if (!place) place = place_from_scientific_name(text);
    return place ? std::optional<std::int64_t>{place->diatonic_index()} : std::nullopt;
}

std::optional<std::int64_t> position_code(const std::string& text)
{
    const auto position = position_from_name(text);
    return position ? std::optional<std::int64_t>{code_of(*position)} : std::nullopt;
}

std::optional<std::int64_t> step_code(const std::string& text)
{
    if (text == "whole") return whole_step_code;
    const auto step = step_from_name(text);
    return step ? std::optional<std::int64_t>{code_of(*step)} : std::nullopt;
}

std::optional<std::int64_t> yes_no_code(const std::string& text)
{
    if (text == "yes" || text == "1" || text == "true") return 1;
    return text == "no" || text == "0" || text == "false" ? std::optional<std::int64_t>{0} : std::nullopt;
}

Values values_of_time(const std::string& text)
{
    const auto time = moment_from_iso(text);
    if (!time) return no_such(text, "time with its offset, as in 2026-03-04T18:05:00+01:00");
    return std::vector<StoredValue>{time->utc_ms, std::int64_t{time->offset_minutes}};
}

Values values_of_money(const std::string& text)
{
    const auto money = money_from_text(text);
    if (!money) return no_such(text, "amount of money with its currency, as in 12.50 EUR");
    return std::vector<StoredValue>{money->minor_units, money->currency};
}

Values values_of_text(const ExchangeColumn& column, const std::string& text)
{
    switch (column.form) {
    case CellForm::key:
        return one(key_bytes(text), text, "key, as in 017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    case CellForm::whole_number:
        return one(whole_number(text), text, "whole number");
    case CellForm::number:
        return one(finite_number(text), text, "number; write it with a point, as in 0.64");
    case CellForm::freedom:
        if (text == "infinite") return std::vector<StoredValue>{freedom_code(INFINITY)};
        [[fallthrough]];
    case CellForm::decimal:
        return one(small_units_from_decimal(text, column.decimals), text,
                   fmt::format("number with at most {} decimals", column.decimals));
    case CellForm::yes_no:
        return one(yes_no_code(text), text, "yes or no");
    case CellForm::place:
        return one(place_code(text), text, "string place, as in 3A");
    case CellForm::position:
        return one(position_code(text), text, "position: flat, natural, sharp, open or engaged");
    case CellForm::step:
        return one(step_code(text), text, "step: lower, upper or whole");
    case CellForm::doubts:
        return one(doubts_code(text), text, "list of doubts");
    case CellForm::date: {
        const auto date = date_from_iso(text);
        return one(date ? std::optional{iso_date(*date)} : std::nullopt, text,
                   "date; write 2026-03-04, 2026-03 or 2026");
    }
    case CellForm::time:
        return values_of_time(text);
    case CellForm::money:
        return values_of_money(text);
    case CellForm::hash:
        return one(hash_bytes(text), text, "SHA-256 in 64 hexadecimal digits");
    case CellForm::bytes:
        return one(bytes_from_base64(text), text, "text in base64");
    case CellForm::words:
    case CellForm::reference:
        break;
    }
    return std::vector<StoredValue>{text};
}

/// What an empty cell of a column that cannot be null stands for, if it may be empty at all.
Values values_of_nothing(const ExchangeColumn& column)
{
    if (column.may_be_empty) return std::vector<StoredValue>(column.stored.size());
    if (column.form == CellForm::words) return std::vector<StoredValue>{std::string{}};
    if (column.form == CellForm::doubts) return std::vector<StoredValue>{std::int64_t{0}};
    if (column.form == CellForm::bytes) return std::vector<StoredValue>{std::vector<std::uint8_t>{}};
    return tl::unexpected<std::string>(column.name + " is missing");
}

} // namespace

bool ExchangeColumn::is_numeric() const
{
    return form == CellForm::whole_number || form == CellForm::number || form == CellForm::decimal ||
           form == CellForm::freedom;
}

std::vector<ExchangeColumn> exchange_columns(const TableInfo& table)
{
    std::vector<ExchangeColumn> columns;
    for (const Column& column : table.columns)
        if (!is_left_out(table, column)) columns.push_back(exchange_column(column));
    return columns;
}

std::string select_of(const ExchangeColumn& column)
{
    if (column.form == CellForm::reference) {
        const char* table = column.points == Points::to_thing
                                ? "thing"
                                : (column.points == Points::to_fact ? "fact" : "action");
        return fmt::format("(SELECT named.id FROM {0} named WHERE named.{0}_no = x.{1})", table,
                           column.stored.front());
    }
    std::vector<std::string> parts;
    for (const std::string& stored : column.stored) parts.push_back("x." + stored);
    return fmt::format("{}", fmt::join(parts, ", "));
}

Cell read_cell(Statement& row, const ExchangeColumn& column)
{
    if (row.next_is_null()) {
        for (std::size_t i = 0; i < column.stored.size(); ++i) (void)row.optional_integer();
        return std::nullopt;
    }
    switch (column.form) {
    case CellForm::key:
    case CellForm::reference:
        return to_string(row.uuid());
    case CellForm::whole_number:
        return std::to_string(row.integer());
    case CellForm::number:
        return shortest_number(row.real());
    case CellForm::decimal:
        return exact_decimal(row.integer(), column.decimals);
    case CellForm::freedom:
        return freedom_word(row.integer());
    case CellForm::yes_no:
        return row.boolean() ? "yes" : "no";
    case CellForm::place:
        return harp_name(place_from_code(row.integer()));
    case CellForm::position:
        return std::string{position_name(position_from_code(row.integer()))};
    case CellForm::step:
        return step_word(row.integer());
    case CellForm::doubts:
        return doubts_words(row.integer());
    case CellForm::time: {
        const std::int64_t utc_ms = row.integer();
        return iso_time({utc_ms, row.small_integer()});
    }
    case CellForm::money: {
        const std::int64_t minor_units = row.integer();
        return money_text({minor_units, row.text()});
    }
    case CellForm::hash: {
        const auto bytes = row.bytes();
        Sha256Hash hash{};
        if (bytes.size() != hash.size()) fail(ErrorCode::corrupt, "a row holds a hash that is none");
        std::copy(bytes.begin(), bytes.end(), hash.begin());
        return to_hex(hash);
    }
    case CellForm::bytes:
        return base64(row.bytes());
    case CellForm::words:
    case CellForm::date:
        break;
    }
    return row.text();
}

tl::expected<std::vector<StoredValue>, std::string> stored_values(const ExchangeColumn& column,
                                                                  const Cell& cell, const FindRow& find_row)
{
    const bool is_nothing = !cell || (cell->empty() && column.form != CellForm::words);
    if (is_nothing || (cell->empty() && column.may_be_empty)) return values_of_nothing(column);
    if (column.form == CellForm::reference) {
        const auto number = find_row(column, *cell);
        if (!number) return tl::unexpected<std::string>(number.error());
        return std::vector<StoredValue>{StoredValue{*number}};
    }
    return values_of_text(column, *cell);
}

} // namespace harpkeep::db
