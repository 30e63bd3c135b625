// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/record_tables.hpp"
#include "db/ledger/action.hpp"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace harpkeep::db {

/// Writes the rows of record tables as facts of one action: things that are new, things that are corrected
/// with all rows that belong to them. Everything throws LedgerFailure.
class RecordWriter {
  public:
    enum class What { added, corrected, unchanged };
    struct Written {
        ThingNo thing;
        What what = What::unchanged;
    };
    /// The values of a row as they came, one entry for each column of the table; nothing: not said.
    using Said = std::vector<std::optional<std::vector<StoredValue>>>;
    /// The values of a row, one for each stored column.
    using Row = std::vector<StoredValue>;

    /// Given  reason  why things are corrected
    RecordWriter(Action& action, const std::vector<RecordTable>& tables, std::string reason)
        : action_(action), tables_(tables), reason_(std::move(reason))
    {
    }

    /// Given  thing  the one to be corrected; else a new one is made, with the key `id` when there is one
    Written write_thing(const RecordTable& table, std::optional<ThingNo> thing, const std::optional<Uuid>& id,
                        const Said& said);
    What write_attachment(const Said& said);

    /// The rows of one thing with what was not said filled in; rows without an ordinal are counted.
    [[nodiscard]] std::vector<Row> complete_rows(const RecordTable& table,
                                                 const std::vector<Said>& said) const;
    /// Whether these are all rows of the thing already, in a thing that this action has not written.
    [[nodiscard]] bool holds_already(const RecordTable& table, ThingNo owner, std::vector<Row> rows) const;
    /// The rows of the thing in this table are about to be written anew. Returns whether the thing itself is
    /// new.
    bool begin_rows(const RecordTable& table, ThingNo owner);
    void write_row(const RecordTable& table, ThingNo owner, const Row& row);

    /// Gives corrected things the rows that nobody spoke of, and new harps the usual compass of their kind.
    void finish();

    [[nodiscard]] std::optional<ThingNo> thing_with(const Uuid& id) const;
    [[nodiscard]] bool is_known(const Uuid& id) const { return thing_with(id).has_value(); }

  private:
    struct Touched {
        std::string kind;
        FactNo fact;
        std::optional<FactNo> content_before; ///< of a corrected thing
        std::set<std::string> given;          ///< tables whose rows are written anew
    };

    [[nodiscard]] std::optional<FactNo> content_of(ThingNo thing) const;
    [[nodiscard]] std::vector<Row> stored_rows(const RecordTable& table, FactNo content) const;
    [[nodiscard]] const RecordTable& content_table(const std::string& kind) const;
    void insert(const RecordTable& table, FactNo fact, const Row& row) const;
    void copy_rows(const RecordTable& table, FactNo from, FactNo to) const;
    void give_usual_compass(FactNo harp) const;

    Action& action_;
    const std::vector<RecordTable>& tables_;
    std::string reason_;
    std::map<ThingNo, Touched> touched_;
};

} // namespace harpkeep::db
