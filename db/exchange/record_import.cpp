// SPDX-License-Identifier: MIT
#include "db/exchange/record_import.hpp"

#include "base/sha256.hpp"
#include "db/exchange/record_rows.hpp"
#include "db/exchange/record_writer.hpp"
#include "db/exchange/reference_finder.hpp"
#include "db/ledger/rule_breaks.hpp"
#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "records/name_key.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <set>

namespace harpkeep::db {

namespace {

/// What is wrong with the length of a name, for those that the commands bound as well.
std::optional<std::string> too_long_name(const ExchangeColumn& column, const Cell& text)
{
    constexpr std::array bounded{"name", "nickname", "maker", "serial_number", "borrower", "technician"};
    const bool is_name = std::find(bounded.begin(), bounded.end(), column.name) != bounded.end();
    return is_name && text ? too_long(*text, "the " + column.name) : std::nullopt;
}

/// One import under way.
class Importer {
  public:
    Importer(Action& action, std::vector<RecordTable> tables, const std::string& reason)
        : action_(action),
          tables_(std::move(tables)),
          writer_(action, tables_, reason),
          finder_(action.database())
    {
        for (const Conflict& conflict : find_conflicts(action.database()))
            known_conflicts_.insert(conflict.words);
    }

    std::vector<RecordImport> run(const std::vector<RecordFile>& files)
    {
        expect_tables(files);
        std::vector<RecordImport> reports;
        for (const RecordTable& table : tables_) // in an order in which all refer to what came before
            for (const RecordFile& file : files)
                if (file.table == table.name) reports.push_back(take(file, table));
        stop_at_problems();
        writer_.finish();
        look_for_broken_rules();
        stop_at_problems();
        return reports;
    }

  private:
    void expect_tables(const std::vector<RecordFile>& files) const
    {
        for (const RecordFile& file : files) {
            const bool known = std::any_of(tables_.begin(), tables_.end(), [&](const RecordTable& table) {
                return table.name == file.table;
            });
            if (known) continue;
            std::vector<std::string> names;
            for (const RecordTable& table : tables_) names.push_back(table.name);
            fail(ErrorCode::invalid_argument, fmt::format("{}: there is no table \"{}\"; there are {}",
                                                          file.name, file.table, fmt::join(names, ", ")));
        }
    }

    void stop_at_problems() const
    {
        if (!problems_.empty()) throw LedgerFailure{problems_.error()};
    }

    RecordImport take(const RecordFile& file, const RecordTable& table)
    {
        RecordImport report{file.name};
        const auto rows = rows_of(file, table, problems_);
        if (table.is_content)
            for (const RecordRow& row : rows) take_thing(table, row, report);
        else if (table.kind.empty())
            for (const RecordRow& row : rows) take_attachment(table, row, report);
        else
            take_belonging(table, rows, report);
        return report;
    }

    /// The values of a row; nothing when a cell is wrong, which is noted. Cells that the file does not have
    /// are nothing in `values`.
    using Values = std::vector<std::optional<std::vector<StoredValue>>>;
    std::optional<Values> values_of(const RecordTable& table, const RecordRow& row)
    {
        const FindRow find = [&](const ExchangeColumn& column,
                                 const std::string& text) -> tl::expected<std::int64_t, std::string> {
            const auto thing = finder_.find(text, kind_of_column(column.stored.front()));
            if (!thing) return tl::unexpected<std::string>(thing.error());
            return thing->value;
        };
        Values values(table.columns.size());
        bool right = true;
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            if (!row.cells[i]) continue;
            auto value = stored_values(table.columns[i], row.cells[i]->text, find);
            if (const auto problem = too_long_name(table.columns[i], row.cells[i]->text)) {
                problems_.add(row.spot_of(i), *problem);
                right = false;
            } else if (value) {
                values[i] = std::move(*value);
            } else {
                problems_.add(row.spot_of(i), value.error());
                right = false;
            }
        }
        return right ? std::optional{std::move(values)} : std::nullopt;
    }

    /// Makes the change; what the ledger itself refuses is noted at its cell.
    template <class Write>
    void attempt(const RecordTable& table, const RecordRow& row, Write&& write)
    {
        try {
            write();
        } catch (const LedgerFailure& caught) {
            if (caught.error().code != ErrorCode::refused &&
                caught.error().code != ErrorCode::invalid_argument)
                throw;
            const std::string words = rule_words(caught.error().message);
            problems_.add(row.spot_of(column_spoken_of(table.columns, words)),
                          as_exchanged(table.columns, words));
        }
    }

    void take_thing(const RecordTable& table, const RecordRow& row, RecordImport& report)
    {
        const auto known = known_thing(table, row);
        if (!known) return;
        const auto values = values_of(table, row);
        if (!values) return;
        attempt(table, row, [&] {
            const auto written = writer_.write_thing(table, known->thing, known->id, *values);
            if (row.first.starts_with('#')) finder_.note_label(row.first, written.thing);
            spots_[written.thing] = row.spot;
            count(written.what, report);
        });
    }

    /// What the key of a row says: a thing of the ledger, the key of a new one, or neither.
    struct Known {
        std::optional<ThingNo> thing;
        std::optional<Uuid> id;
    };
    std::optional<Known> known_thing(const RecordTable& table, const RecordRow& row)
    {
        if (row.first.empty()) return Known{};
        if (row.first.starts_with('#')) {
            if (!finder_.has_label(row.first)) return Known{};
            problems_.add(row.spot, fmt::format("the label {} was used already", row.first));
            return std::nullopt;
        }
        if (const auto found = finder_.find(row.first, table.kind)) {
            if (spots_.contains(*found)) {
                problems_.add(row.spot, fmt::format("{} was in a row before this one already", row.first));
                return std::nullopt;
            }
            return Known{*found, std::nullopt};
        } else {
            const auto id = uuid_from_string(row.first);
            const bool is_free = id && id->bytes[6] >> 4U == 7 && !writer_.is_known(*id);
            if (is_free) return Known{std::nullopt, *id};
            const bool is_void = id && writer_.is_known(*id) && !finder_.find(row.first, "");
            problems_.add(row.spot, is_void ? row.first + " was voided; leave the key out to note it anew"
                                            : found.error() + "; leave the key out for a new one");
            return std::nullopt;
        }
    }

    void take_attachment(const RecordTable& table, const RecordRow& row, RecordImport& report)
    {
        const auto values = values_of(table, row);
        if (!values) return;
        attempt(table, row, [&] { count(writer_.write_attachment(*values), report); });
    }

    void take_belonging(const RecordTable& table, const std::vector<RecordRow>& rows, RecordImport& report)
    {
        std::vector<std::pair<ThingNo, std::vector<const RecordRow*>>> groups;
        std::map<ThingNo, std::size_t> group_of;
        for (const RecordRow& row : rows) {
            const auto owner = finder_.find(row.first, table.kind);
            if (!owner) {
                problems_.add(row.spot, owner.error());
                continue;
            }
            const auto [place, is_new] = group_of.try_emplace(*owner, groups.size());
            if (is_new) groups.emplace_back(*owner, std::vector<const RecordRow*>{});
            groups[place->second].second.push_back(&row);
        }
        for (const auto& [owner, its_rows] : groups) take_group(table, owner, its_rows, report);
    }

    void take_group(const RecordTable& table, ThingNo owner, const std::vector<const RecordRow*>& rows,
                    RecordImport& report)
    {
        std::vector<Values> all;
        for (const RecordRow* row : rows) {
            auto values = values_of(table, *row);
            if (!values) return;
            all.push_back(std::move(*values));
        }
        spots_.try_emplace(owner, rows.front()->spot);
        std::optional<std::vector<RecordWriter::Row>> complete;
        attempt(table, *rows.front(), [&] { complete = writer_.complete_rows(table, all); });
        if (!complete) return;
        if (writer_.holds_already(table, owner, *complete)) {
            ++report.unchanged;
            return;
        }
        bool is_new = false;
        attempt(table, *rows.front(), [&] { is_new = writer_.begin_rows(table, owner); });
        for (std::size_t i = 0; i < rows.size(); ++i)
            attempt(table, *rows[i], [&] { writer_.write_row(table, owner, (*complete)[i]); });
        ++(is_new ? report.added : report.corrected);
    }

    static void count(RecordWriter::What what, RecordImport& report)
    {
        if (what == RecordWriter::What::added) ++report.added;
        if (what == RecordWriter::What::corrected) ++report.corrected;
        if (what == RecordWriter::What::unchanged) ++report.unchanged;
    }

    void look_for_broken_rules()
    {
        const Database& database = action_.database();
        for (const Conflict& conflict : find_conflicts(database))
            if (!known_conflicts_.contains(conflict.words)) note(conflict);
        for (const Conflict& date : find_future_dates(database, action_.now()))
            if (concerns_import(date)) note(date);
    }

    [[nodiscard]] std::optional<ThingNo> imported(const Conflict& conflict) const
    {
        for (const Uuid& id : conflict.things)
            if (const auto thing = writer_.thing_with(id); thing && spots_.contains(*thing)) return thing;
        return std::nullopt;
    }
    [[nodiscard]] bool concerns_import(const Conflict& conflict) const
    {
        return imported(conflict).has_value();
    }

    void note(const Conflict& conflict)
    {
        const auto thing = imported(conflict);
        if (thing)
            problems_.add(spots_.at(*thing), conflict.words);
        else
            problems_.add(conflict.words);
    }

    Action& action_;
    std::vector<RecordTable> tables_;
    RecordWriter writer_;
    ReferenceFinder finder_;
    ImportProblems problems_;
    std::set<std::string> known_conflicts_;
    std::map<ThingNo, RowSpot> spots_; ///< of the things that the files speak of
};

} // namespace

Result<std::vector<RecordImport>> import_records(Ledger& ledger, const Author& author,
                                                 const std::vector<RecordFile>& files,
                                                 const ImportOptions& options)
{
    return guarded_action(options.what.empty() ? "importing" : options.what, [&] {
        std::vector<std::string> names;
        for (const RecordFile& file : files) names.push_back(file.name);
        Action action{ledger, author,
                      options.what.empty() ? fmt::format("imported {}", fmt::join(names, ", "))
                                           : options.what};
        Importer importer{action, record_tables(ledger.database()), options.reason};
        auto reports = importer.run(files);
        const bool changes = std::any_of(reports.begin(), reports.end(), [](const RecordImport& report) {
            return report.added + report.corrected > 0;
        });
        if (changes && !options.only_try) action.commit();
        return reports;
    });
}

} // namespace harpkeep::db
