// SPDX-License-Identifier: MIT
#include "db/exchange/record_writer.hpp"

#include "base/expects.hpp"
#include "base/sha256.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "harp/harp_layout.hpp"
#include "records/name_key.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

std::vector<std::string> stored_columns(const RecordTable& table)
{
    std::vector<std::string> names;
    for (const ExchangeColumn& column : table.columns)
        names.insert(names.end(), column.stored.begin(), column.stored.end());
    return names;
}

std::string type_of(const TableInfo& table, const std::string& column)
{
    for (const Column& known : table.columns)
        if (known.name == column) return known.type;
    HARPKEEP_EXPECTS(false);
}

StoredValue read_value(Statement& row, const std::string& type)
{
    if (row.next_is_null()) {
        (void)row.optional_integer();
        return std::monostate{};
    }
    if (type == "INTEGER") return row.integer();
    if (type == "REAL") return row.real();
    if (type == "BLOB") return row.bytes();
    return row.text();
}

bool has_name_key(const RecordTable& table)
{
    return std::any_of(table.info.columns.begin(), table.info.columns.end(),
                       [](const Column& column) { return column.name == "name_key"; });
}

/// What stands for a column that was not said anything of; fails when it cannot be empty.
std::vector<StoredValue> unsaid(const ExchangeColumn& column)
{
    const FindRow none = [](const ExchangeColumn&,
                            const std::string&) -> tl::expected<std::int64_t, std::string> {
        return tl::unexpected<std::string>("");
    };
    auto values = stored_values(column, std::nullopt, none);
    if (!values) fail(ErrorCode::invalid_argument, values.error());
    return std::move(*values);
}

/// A whole row from what was said of it; what was not said is as before, or empty.
RecordWriter::Row complete(const RecordTable& table, const RecordWriter::Said& said,
                           const std::optional<RecordWriter::Row>& before)
{
    RecordWriter::Row row;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const std::size_t count = table.columns[i].stored.size();
        if (said[i])
            row.insert(row.end(), said[i]->begin(), said[i]->end());
        else if (before)
            row.insert(row.end(), before->begin() + static_cast<std::ptrdiff_t>(row.size()),
                       before->begin() + static_cast<std::ptrdiff_t>(row.size() + count));
        else
            for (auto& value : unsaid(table.columns[i])) row.push_back(std::move(value));
    }
    return row;
}

} // namespace

std::optional<FactNo> RecordWriter::content_of(ThingNo thing) const
{
    auto query = action_.database().prepare("SELECT content_no FROM current_fact WHERE thing_no = :thing_no");
    query.bind(":thing_no", thing.value);
    return query.step() ? std::optional{FactNo{query.integer()}} : std::nullopt;
}

std::vector<RecordWriter::Row> RecordWriter::stored_rows(const RecordTable& table, FactNo content) const
{
    const auto names = stored_columns(table);
    std::vector<std::string> types;
    for (const std::string& name : names) types.push_back(type_of(table.info, name));
    auto query = action_.database().prepare(
        fmt::format("SELECT {} FROM {} WHERE fact_no = :fact_no", fmt::join(names, ", "), table.info.name));
    query.bind(":fact_no", content.value);
    std::vector<Row> rows;
    while (query.step()) {
        Row row;
        for (const std::string& type : types) row.push_back(read_value(query, type));
        rows.push_back(std::move(row));
    }
    return rows;
}

const RecordTable& RecordWriter::content_table(const std::string& kind) const
{
    const auto found = std::find_if(tables_.begin(), tables_.end(), [&](const RecordTable& table) {
        return table.is_content && table.kind == kind;
    });
    HARPKEEP_EXPECTS(found != tables_.end());
    return *found;
}

void RecordWriter::insert(const RecordTable& table, FactNo fact, const Row& row) const
{
    const auto names = stored_columns(table);
    HARPKEEP_EXPECTS(names.size() == row.size());
    Insert insert{action_.database(), table.info.name};
    insert.set("fact_no", fact.value);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool is_name = names[i] == "name" && has_name_key(table);
        if (!is_name) {
            insert.set_value(names[i], row[i]);
            continue;
        }
        const auto& name = std::get<std::string>(row[i]);
        const auto key = name_key(name);
        if (!key)
            fail(ErrorCode::invalid_argument,
                 fmt::format("\"{}\" cannot be a name; give some letters on one line", name));
        insert.set("name", trimmed(name)).set("name_key", *key);
    }
    insert.run();
}

RecordWriter::Written RecordWriter::write_thing(const RecordTable& table, std::optional<ThingNo> thing,
                                                const std::optional<Uuid>& id, const Said& said)
{
    if (!thing) {
        const Row row = complete(table, said, std::nullopt);
        const NewThing made = action_.add(table.kind, id);
        touched_[made.thing] = {table.kind, made.fact, std::nullopt, {}};
        insert(table, made.fact, row);
        return {made.thing, What::added};
    }
    const auto content = content_of(*thing);
    HARPKEEP_EXPECTS(content);
    const auto before = stored_rows(table, *content);
    HARPKEEP_EXPECTS(before.size() == 1);
    const Row row = complete(table, said, before.front());
    if (row == before.front()) return {*thing, What::unchanged};
    const FactNo fact = action_.correct(*thing, reason_);
    touched_[*thing] = {table.kind, fact, content, {}};
    insert(table, fact, row);
    return {*thing, What::corrected};
}

RecordWriter::What RecordWriter::write_attachment(const Said& said)
{
    const bool whole = said.size() == 2 && said[0] && said[1];
    if (!whole) fail(ErrorCode::invalid_argument, "an attachment needs its sha256 and its content");
    const auto& hash = std::get<std::vector<std::uint8_t>>(said[0]->front());
    const auto& content = std::get<std::vector<std::uint8_t>>(said[1]->front());
    const auto actual = sha256_of(content);
    if (!std::equal(hash.begin(), hash.end(), actual.begin(), actual.end()))
        fail(ErrorCode::invalid_argument, "the sha256 is not that of the content");
    auto insert = action_.database().prepare(
        "INSERT INTO attachment (sha256, content) VALUES (:sha256, :content) ON CONFLICT DO NOTHING");
    insert.bind(":sha256", std::span{hash}).bind(":content", std::span{content}).run();
    return action_.database().changed_rows() > 0 ? What::added : What::unchanged;
}

std::vector<RecordWriter::Row> RecordWriter::complete_rows(const RecordTable& table,
                                                           const std::vector<Said>& said) const
{
    std::vector<Row> rows;
    for (std::size_t i = 0; i < said.size(); ++i) {
        Said numbered = said[i];
        for (std::size_t column = 0; column < table.columns.size(); ++column)
            if (table.columns[column].name == "ordinal" && !numbered[column])
                numbered[column] = {StoredValue{static_cast<std::int64_t>(i)}};
        rows.push_back(complete(table, numbered, std::nullopt));
    }
    return rows;
}

bool RecordWriter::holds_already(const RecordTable& table, ThingNo owner, std::vector<Row> rows) const
{
    const auto content = content_of(owner);
    if (touched_.contains(owner) || !content) return false;
    auto stored = stored_rows(table, *content);
    std::sort(stored.begin(), stored.end());
    std::sort(rows.begin(), rows.end());
    return rows == stored;
}

bool RecordWriter::begin_rows(const RecordTable& table, ThingNo owner)
{
    if (!touched_.contains(owner)) {
        const auto content = content_of(owner);
        HARPKEEP_EXPECTS(content);
        const FactNo fact = action_.correct(owner, reason_);
        touched_[owner] = {table.kind, fact, content, {}};
        copy_rows(content_table(table.kind), *content, fact);
    }
    touched_.at(owner).given.insert(table.name);
    return !touched_.at(owner).content_before;
}

void RecordWriter::write_row(const RecordTable& table, ThingNo owner, const Row& row)
{
    insert(table, touched_.at(owner).fact, row);
}

void RecordWriter::copy_rows(const RecordTable& table, FactNo from, FactNo to) const
{
    std::vector<std::string> names;
    for (const Column& column : table.info.columns)
        if (column.name != "fact_no") names.push_back(column.name);
    action_.database()
        .prepare(fmt::format("INSERT INTO {0} (fact_no, {1}) SELECT :to, {1} FROM {0} WHERE fact_no = :from",
                             table.info.name, fmt::join(names, ", ")))
        .bind(":to", to.value)
        .bind(":from", from.value)
        .run();
}

void RecordWriter::give_usual_compass(FactNo harp) const
{
    auto query = action_.database().prepare("SELECT kind FROM harp WHERE fact_no = :fact_no");
    query.bind(":fact_no", harp.value);
    if (!query.step()) return; // its row was refused
    LayoutRequest request;
    request.kind = kind_from_name(query.text()).value(); // by the table's CHECK
    request.string_count = usual_string_count(request.kind);
    query.reset();
    const HarpLayout layout = value_or_fail(make_layout(request));
    for (const HarpString& string : layout.strings)
        Insert{action_.database(), "harp_string"}
            .set("fact_no", harp.value)
            .set("place", string.place.diatonic_index())
            .set("open_alteration", string.open_alteration)
            .set("has_natural_disc", string.has_natural_disc ? 1 : 0)
            .set("has_sharp_disc", string.has_sharp_disc ? 1 : 0)
            .run();
}

void RecordWriter::finish()
{
    for (const auto& [thing, touched] : touched_) {
        if (touched.content_before)
            for (const RecordTable& table : tables_)
                if (!table.is_content && table.kind == touched.kind && !touched.given.contains(table.name))
                    copy_rows(table, *touched.content_before, touched.fact);
        const bool new_harp = touched.kind == "harp" && !touched.content_before;
        if (new_harp && !touched.given.contains("harp_string")) give_usual_compass(touched.fact);
    }
}

std::optional<ThingNo> RecordWriter::thing_with(const Uuid& id) const
{
    auto query = action_.database().prepare("SELECT thing_no FROM thing WHERE id = :id");
    query.bind(":id", id);
    return query.step() ? std::optional{ThingNo{query.integer()}} : std::nullopt;
}

} // namespace harpkeep::db
