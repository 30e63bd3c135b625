// SPDX-License-Identifier: MIT
#include "db/ledger/action.hpp"

#include "base/expects.hpp"

#include <vector>

namespace harpkeep::db {

namespace {

std::vector<FactNo> heads_of(const Database& database, ThingNo thing)
{
    auto query = database.prepare("SELECT fact_no FROM head_fact WHERE thing_no = :thing_no");
    query.bind(":thing_no", thing.value);
    std::vector<FactNo> heads;
    while (query.step()) heads.push_back({query.integer()});
    return heads;
}

} // namespace

Action::Action(Ledger& ledger, const Author& author, std::string_view what)
    : Action(ledger, author, [&](const Database&) {
          return ActionWords{std::string{what}, std::nullopt};
      })
{
}

Action::Action(Ledger& ledger, const Author& author, const std::function<ActionWords(const Database&)>& words)
    : ledger_(ledger), author_(author), transaction_(ledger.database(), Transaction::Kind::write)
{
    const ActionWords chosen = words(database());
    database()
        .prepare("INSERT INTO action (id, recorded_utc_ms, recorded_offset_min, computer, what, undoes_no) "
                 "VALUES (:id, :utc_ms, :offset_min, :computer, :what, :undoes_no)")
        .bind(":id", ledger.new_id(author.now))
        .bind(":utc_ms", author.now.utc_ms)
        .bind(":offset_min", author.now.offset_minutes)
        .bind(":computer", author.computer)
        .bind(":what", chosen.what)
        .bind(":undoes_no", chosen.undoes_no)
        .run();
    action_no_ = database().last_row_number();
}

FactNo Action::insert_fact(ThingNo thing, std::string_view effect, std::optional<FactNo> restores,
                           std::string_view reason)
{
    auto insert =
        database().prepare("INSERT INTO fact (id, thing_no, action_no, effect, restores_no, reason) "
                           "VALUES (:id, :thing_no, :action_no, :effect, :restores_no, :reason)");
    insert.bind(":id", ledger_.new_id(author_.now))
        .bind(":thing_no", thing.value)
        .bind(":action_no", action_no_)
        .bind(":effect", effect)
        .bind(":reason", reason);
    if (restores) insert.bind(":restores_no", restores->value);
    insert.run();
    return {database().last_row_number()};
}

FactNo Action::supersede(ThingNo thing, std::string_view effect, std::optional<FactNo> restores,
                         std::string_view reason)
{
    const auto heads = heads_of(database(), thing);
    HARPKEEP_EXPECTS(!heads.empty());
    const FactNo fact = insert_fact(thing, effect, restores, reason);
    auto insert = database().prepare("INSERT INTO supersession (fact_no, superseded_no) VALUES (:new, :old)");
    for (const FactNo head : heads) insert.bind(":old", head.value).bind(":new", fact.value).run();
    return fact;
}

NewThing Action::add(std::string_view kind, const std::optional<Uuid>& known_id)
{
    const Uuid id = known_id ? *known_id : ledger_.new_id(author_.now);
    database()
        .prepare("INSERT INTO thing (id, kind) VALUES (:id, :kind)")
        .bind(":id", id)
        .bind(":kind", kind)
        .run();
    const ThingNo thing{database().last_row_number()};
    return {thing, insert_fact(thing, "state", std::nullopt, ""), id};
}

FactNo Action::correct(ThingNo thing, std::string_view reason)
{
    return supersede(thing, "state", std::nullopt, reason);
}

void Action::make_void(ThingNo thing, std::string_view reason)
{
    supersede(thing, "void", std::nullopt, reason);
}

void Action::restore(ThingNo thing, FactNo content, std::string_view reason)
{
    supersede(thing, "restore", content, reason);
}

void Action::commit()
{
    transaction_.commit();
}

std::optional<ThingNo> find_thing(const Database& database, const Uuid& id, std::string_view kind)
{
    auto query = database.prepare("SELECT thing_no FROM thing WHERE id = :id AND kind = :kind");
    query.bind(":id", id).bind(":kind", kind);
    if (!query.step()) return std::nullopt;
    return ThingNo{query.integer()};
}

} // namespace harpkeep::db
