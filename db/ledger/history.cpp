// SPDX-License-Identifier: MIT
#include "db/ledger/history.hpp"

#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr const char* select_actions =
    "SELECT a.id, a.action_no, a.recorded_utc_ms, a.recorded_offset_min, a.computer, a.what, "
    "EXISTS (SELECT 1 FROM action u WHERE u.undoes_no = a.action_no), "
    "(SELECT u.id FROM action u WHERE u.action_no = a.undoes_no) FROM action a ";

/// Keys that two programs made within one millisecond sort by chance; the file knows which came first.
constexpr const char* youngest_first = "ORDER BY a.recorded_utc_ms DESC, a.action_no DESC";

struct ActionRow {
    ActionRecord record;
    std::int64_t action_no = 0;
};

ActionRow read_action(Statement& row)
{
    ActionRow read;
    read.record.id = row.uuid();
    read.action_no = row.integer();
    read.record.recorded.utc_ms = row.integer();
    read.record.recorded.offset_minutes = row.small_integer();
    read.record.computer = row.text();
    read.record.what = row.text();
    read.record.undone = row.boolean();
    read.record.undoes = row.optional_uuid();
    return read;
}

void add_things(const Database& database, ActionRow& row)
{
    auto query = database.prepare("SELECT DISTINCT t.id, t.kind FROM fact f JOIN thing t USING (thing_no) "
                                  "WHERE f.action_no = :action_no ORDER BY f.fact_no");
    query.bind(":action_no", row.action_no);
    while (query.step()) {
        const Uuid id = query.uuid();
        row.record.things.emplace_back(id, query.text());
    }
}

/// A fact of the action that is to be undone, with what held before it.
struct UndoStep {
    ThingNo thing;
    std::optional<FactNo> content_before;
};

/// The content that held before `fact`: of the facts that it superseded, the youngest that has content.
std::optional<FactNo> content_before(const Database& database, FactNo fact)
{
    auto query =
        database.prepare("SELECT coalesce(f.restores_no, f.fact_no) FROM supersession s "
                         "JOIN fact f ON f.fact_no = s.superseded_no "
                         "WHERE s.fact_no = :fact_no AND f.effect <> 'void' ORDER BY f.id DESC LIMIT 1");
    query.bind(":fact_no", fact.value);
    if (!query.step()) return std::nullopt;
    return FactNo{query.integer()};
}

std::vector<UndoStep> steps_to_undo(const Database& database, std::int64_t action_no, const std::string& what)
{
    auto query = database.prepare(
        "SELECT f.fact_no, f.thing_no, "
        "EXISTS (SELECT 1 FROM supersession s WHERE s.superseded_no = f.fact_no) FROM fact f "
        "WHERE f.action_no = :action_no ORDER BY f.fact_no");
    query.bind(":action_no", action_no);
    std::vector<UndoStep> steps;
    while (query.step()) {
        const FactNo fact{query.integer()};
        const ThingNo thing{query.integer()};
        if (query.boolean())
            fail(ErrorCode::refused,
                 fmt::format(
                     "\"{}\" was corrected since, on another computer; correct or void what is wrong instead",
                     what));
        steps.push_back({thing, content_before(database, fact)});
    }
    return steps;
}

ActionRow last_to_undo(const Database& database, const std::string& computer)
{
    auto query = database.prepare(std::string{select_actions} +
                                  "WHERE a.computer = :computer AND a.undoes_no IS NULL AND NOT EXISTS "
                                  "(SELECT 1 FROM action u WHERE u.undoes_no = a.action_no) " +
                                  youngest_first + " LIMIT 1");
    query.bind(":computer", computer);
    if (!query.step())
        fail(ErrorCode::refused, fmt::format("nothing is left to undo of what was done on {}", computer));
    ActionRow row = read_action(query);
    add_things(database, row);
    return row;
}

} // namespace

Result<std::vector<ActionRecord>> actions(const Ledger& ledger, int limit)
{
    return snapshot(ledger, "reading what was done", [&] {
        auto query =
            ledger.database().prepare(std::string{select_actions} + youngest_first + " LIMIT :limit");
        query.bind(":limit", limit);
        std::vector<ActionRecord> all;
        while (query.step()) {
            ActionRow row = read_action(query);
            add_things(ledger.database(), row);
            all.push_back(std::move(row.record));
        }
        return all;
    });
}

Result<ActionRecord> undo_last(Ledger& ledger, const Author& author)
{
    return guarded("undoing", [&] {
        ActionRow row;
        Action action{ledger, author, [&](const Database& database) {
                          row = last_to_undo(database, author.computer);
                          return ActionWords{"undid: " + row.record.what, row.action_no};
                      }};
        for (const UndoStep& step : steps_to_undo(ledger.database(), row.action_no, row.record.what)) {
            if (step.content_before)
                action.restore(step.thing, *step.content_before, "undone");
            else
                action.make_void(step.thing, "undone");
        }
        action.commit();
        return row.record;
    });
}

Result<std::vector<FactRecord>> facts_of(const Ledger& ledger, const Uuid& thing_id)
{
    return snapshot(ledger, "reading what was stated", [&] {
        auto query = ledger.database().prepare(
            "SELECT f.id, f.effect, f.reason, a.recorded_utc_ms, a.recorded_offset_min, a.computer, a.what, "
            "EXISTS (SELECT 1 FROM current_fact c WHERE c.thing_no = f.thing_no AND c.fact_no = f.fact_no) "
            "FROM thing t JOIN fact f USING (thing_no) JOIN action a USING (action_no) WHERE t.id = :id "
            "ORDER BY f.id");
        query.bind(":id", thing_id);
        std::vector<FactRecord> facts;
        while (query.step()) {
            FactRecord fact;
            fact.id = query.uuid();
            fact.effect = query.text();
            fact.reason = query.text();
            fact.recorded.utc_ms = query.integer();
            fact.recorded.offset_minutes = query.small_integer();
            fact.computer = query.text();
            fact.what = query.text();
            fact.holds = query.boolean();
            facts.push_back(std::move(fact));
        }
        return facts;
    });
}

} // namespace harpkeep::db
