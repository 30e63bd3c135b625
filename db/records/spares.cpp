// SPDX-License-Identifier: MIT
#include "db/records/spares.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/spare_rows.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <tuple>

namespace harpkeep::db {

namespace {

std::string select_movements()
{
    return fmt::format(
        "SELECT id, {}, place, {}, batch, change, cause, moved_on, cost_minor, cost_currency, {}, "
        "remarks FROM spare_movement m JOIN current_content USING (fact_no) ",
        id_of("m.harp_no"), make_columns, id_of("m.string_no"));
}

SpareMovementRecord read_movement(Statement& row)
{
    SpareMovementRecord record;
    record.id = row.uuid();
    SpareMovement& movement = record.details;
    movement.harp_id = row.optional_uuid();
    movement.place = place_from_code(row.integer());
    movement.make = read_make(row);
    movement.batch = row.text();
    movement.change = row.small_integer();
    movement.cause = spare_cause_from_name(row.text()).value(); // by the table's CHECK
    movement.moved_on = read_date(row);
    movement.cost = read_money(row);
    movement.string_id = row.optional_uuid();
    movement.remarks = row.text();
    return record;
}

std::vector<SpareMovementRecord> read_movements(const Database& database, const std::string& rest)
{
    auto query = database.prepare(select_movements() + rest);
    std::vector<SpareMovementRecord> movements;
    while (query.step()) movements.push_back(read_movement(query));
    return movements;
}

bool same_make(const StringMake& a, const StringMake& b)
{
    return a.material == b.material && a.diameter == b.diameter && a.wrap_material == b.wrap_material &&
           a.wrap_outer_diameter == b.wrap_outer_diameter;
}

bool same_kind(const SpareStock& stock, const SpareMovement& movement)
{
    return stock.place == movement.place && stock.harp_id == movement.harp_id &&
           same_make(stock.make, movement.make);
}

std::vector<SpareStock> stock_of(const Database& database)
{
    std::vector<SpareStock> stock;
    for (const auto& record : read_movements(database, "ORDER BY place, moved_on, id")) {
        const SpareMovement& movement = record.details;
        const auto known = std::find_if(stock.begin(), stock.end(),
                                        [&](const SpareStock& kind) { return same_kind(kind, movement); });
        if (known == stock.end())
            stock.push_back({movement.harp_id, movement.place, movement.make, movement.change});
        else
            known->count += movement.change;
    }
    return stock;
}

int count_of(const Database& database, const SpareMovement& movement)
{
    for (const SpareStock& stock : stock_of(database))
        if (same_kind(stock, movement)) return stock.count;
    return 0;
}

std::string words_for(const SpareMovement& movement)
{
    return fmt::format("{} {} string{} for {}", std::abs(movement.change), movement.make.material,
                       std::abs(movement.change) == 1 ? "" : "s", harp_name(movement.place));
}

void insert_checked(Action& action, FactNo fact, const SpareMovement& movement)
{
    refuse_future(movement.moved_on, action.now(), "the day");
    const int left = count_of(action.database(), movement) + movement.change;
    if (movement.change < 0 && left < 0)
        fail(ErrorCode::refused,
             fmt::format("only {} of that kind in stock; `harpkeep spare count` corrects the stock",
                         left - movement.change));
    insert_movement(action, fact, movement);
}

} // namespace

void insert_movement(const Action& action, FactNo fact, const SpareMovement& movement)
{
    const Database& database = action.database();
    Insert insert{database, "spare_movement"};
    insert.set("fact_no", fact.value)
        .set("harp_no", optional_thing(database, movement.harp_id, "harp"))
        .set("place", movement.place.diatonic_index());
    set_make(insert, movement.make);
    insert.set("batch", movement.batch)
        .set("change", movement.change)
        .set("cause", spare_cause_name(movement.cause))
        .set("moved_on", iso_date(movement.moved_on));
    set_money(insert, "cost", movement.cost);
    insert.set("string_no", optional_thing(database, movement.string_id, "string"))
        .set("remarks", movement.remarks)
        .run();
}

void use_spare(Action& action, ThingNo harp, ThingNo string, const MountedString& mounted)
{
    const Database& database = action.database();
    auto ids = database.prepare("SELECT (SELECT id FROM thing WHERE thing_no = :harp), "
                                "(SELECT id FROM thing WHERE thing_no = :string)");
    ids.bind(":harp", harp.value).bind(":string", string.value).step();
    const Uuid harp_id = ids.uuid();
    const Uuid string_id = ids.uuid();
    ids.reset();
    // The harp's own spares first, then those for any harp; either must agree where both say something.
    for (const auto& owner : {std::optional{harp_id}, std::optional<Uuid>{}})
        for (const SpareStock& stock : stock_of(database)) {
            const bool fits = stock.place == mounted.place && stock.harp_id == owner && stock.count > 0 &&
                              stock.make.material == mounted.make.material &&
                              (!stock.make.diameter || !mounted.make.diameter ||
                               stock.make.diameter == mounted.make.diameter);
            if (!fits) continue;
            const Date day = mounted.put_on.value_or(local_date(action.now()));
            insert_movement(action, action.add("spare_movement").fact,
                            {.harp_id = owner,
                             .place = mounted.place,
                             .make = stock.make,
                             .change = -1,
                             .cause = SpareCause::used,
                             .moved_on = day,
                             .string_id = string_id});
            return;
        }
    fail(ErrorCode::refused,
         fmt::format("no spare {} string for {} in stock; leave --from-spares out, or correct the "
                     "stock with `harpkeep spare count`",
                     mounted.make.material, harp_name(mounted.place)));
}

Result<Uuid> move_spares(Ledger& ledger, const Author& author, const SpareMovement& movement)
{
    const std::string what = fmt::format("{} {}", spare_cause_name(movement.cause), words_for(movement));
    return guarded_action(what, [&] {
        if (movement.change == 0) fail(ErrorCode::invalid_argument, "give how many strings, at least 1");
        Action action{ledger, author, what};
        const NewThing thing = action.add("spare_movement");
        insert_checked(action, thing.fact, movement);
        action.commit();
        return thing.id;
    });
}

Result<void> count_spares(Ledger& ledger, const Author& author, SpareMovement counted_kind, int found)
{
    return guarded_action("counted spares", [&] {
        if (found < 0) fail(ErrorCode::invalid_argument, "a count cannot be less than 0");
        Action action{ledger, author,
                      fmt::format("counted {} {} for {}", found, counted_kind.make.material,
                                  harp_name(counted_kind.place))};
        counted_kind.change = found - count_of(action.database(), counted_kind);
        counted_kind.cause = SpareCause::counted;
        if (counted_kind.change == 0) return;
        insert_checked(action, action.add("spare_movement").fact, counted_kind);
        action.commit();
    });
}

Result<std::vector<SpareStock>> spare_stock(const Ledger& ledger)
{
    return snapshot(ledger, "reading the spares", [&] {
        auto stock = stock_of(ledger.database());
        std::erase_if(stock, [](const SpareStock& kind) { return kind.count == 0; });
        return stock;
    });
}

Result<std::vector<SpareMovementRecord>> spare_movements(const Ledger& ledger)
{
    return snapshot(ledger, "reading the movements of spares",
                    [&] { return read_movements(ledger.database(), "ORDER BY moved_on, id"); });
}

} // namespace harpkeep::db
