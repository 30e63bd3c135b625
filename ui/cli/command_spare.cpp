// SPDX-License-Identifier: MIT
#include "db/records/spares.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/string_output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct SpareWords {
    std::string place;
    std::string harp;
    MakeWords make;
    std::string batch;
    int count = 1;
    std::string cause = "lost";
    std::string cost;
    std::string date;
    std::string remarks;
};

/// The movement that was described; `change` and `cause` are left to the caller.
Result<SpareMovement> movement_from(const db::Ledger& ledger, const SpareWords& words)
{
    SpareMovement movement;
    const auto place = place_argument(words.place);
    if (!place) return failure(place.error());
    movement.place = *place;
    if (!words.harp.empty()) {
        const auto harp = chosen_harp(ledger, words.harp);
        if (!harp) return failure(harp.error());
        movement.harp_id = harp->id;
    }
    movement.make = make_from(words.make);
    movement.batch = words.batch;
    const auto date = date_or_today(words.date);
    if (!date) return failure(date.error());
    movement.moved_on = *date;
    if (!words.cost.empty()) {
        const auto cost = money_argument(words.cost);
        if (!cost) return failure(cost.error());
        movement.cost = *cost;
    }
    movement.remarks = words.remarks;
    return movement;
}

Result<void> print_stock(const Common& common, const db::Ledger& ledger)
{
    const auto names = Names::in(ledger);
    if (!names) return failure(names.error());
    const auto stock = db::spare_stock(ledger);
    if (!stock) return failure(stock.error());
    if (common.json) {
        print_json(json_list(*stock, *names));
        return {};
    }
    if (stock->empty()) {
        print_line("No spares in stock; `harpkeep spare add PLACE --material gut --count 2` notes some.");
        return {};
    }
    Table table{{{"Place"},
                 {"Material"},
                 {"Diameter mm", Table::Align::right},
                 {"For"},
                 {"Count", Table::Align::right}}};
    for (const SpareStock& kind : *stock)
        table.add_row({harp_name(kind.place), material_words(kind.make), millimetres_text(kind.make.diameter),
                       kind.harp_id ? names->of(kind.harp_id) : "any harp", std::to_string(kind.count)});
    table.print();
    return {};
}

Result<void> move(const Common& common, const SpareWords& words, int sign, SpareCause cause)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto movement = movement_from(*ledger, words);
    if (!movement) return failure(movement.error());
    movement->change = sign * words.count;
    movement->cause = cause;
    const auto id = db::move_spares(*ledger, ui::author(), *movement);
    if (!id) return failure(id.error());
    return print_stock(common, *ledger);
}

Result<void> add(const Common& common, const SpareWords& words)
{
    return move(common, words, 1, SpareCause::bought);
}

Result<void> remove(const Common& common, const SpareWords& words)
{
    return move(common, words, -1, spare_cause_from_name(words.cause).value());
}

Result<void> count(const Common& common, const SpareWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto movement = movement_from(*ledger, words);
    if (!movement) return failure(movement.error());
    const auto done = db::count_spares(*ledger, ui::author(), *movement, words.count);
    if (!done) return failure(done.error());
    return print_stock(common, *ledger);
}

struct ListWords {
    bool movements = false;
};

Result<void> list(const Common& common, const ListWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    if (!words.movements) return print_stock(common, *ledger);
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    const auto movements = db::spare_movements(*ledger);
    if (!movements) return failure(movements.error());
    if (common.json) {
        print_json(json_list(*movements, *names));
        return {};
    }
    Table table{
        {{"Date"}, {"Place"}, {"Material"}, {"Change", Table::Align::right}, {"Why"}, {"Cost"}, {"Handle"}}};
    for (const SpareMovementRecord& record : *movements)
        table.add_row({iso_date(record.details.moved_on), harp_name(record.details.place),
                       material_words(record.details.make), fmt::format("{:+}", record.details.change),
                       std::string{spare_cause_name(record.details.cause)},
                       record.details.cost ? money_text(*record.details.cost) : "",
                       db::handle_of(record.id)});
    table.print();
    return {};
}

void add_spare_options(CLI::App& app, SpareWords& words)
{
    app.add_option("PLACE", words.place, "which place it is for, as in 3A")->required();
    app.add_option("--harp", words.harp, "for this harp only (default: for any)");
    add_make_options(app, words.make);
    app.add_option("--batch", words.batch, "batch or label");
    app.add_option("--date", words.date, "when (default: today)");
    app.add_option("--remarks", words.remarks, "anything else");
}

} // namespace

void add_command_spare(CLI::App& app, Common& common, Work& work)
{
    auto& spare = add_noun(app, "spare", "strings in stock");

    const auto adding = add_verb<SpareWords>(spare, common, work, "add", "strings came into stock", add);
    add_spare_options(*adding.app, *adding.words);
    adding.app->add_option("--count", adding.words->count, "how many (default: 1)")
        ->check(CLI::PositiveNumber);
    adding.app->add_option("--cost", adding.words->cost, "what they cost together");

    const auto removing =
        add_verb<SpareWords>(spare, common, work, "remove", "strings left the stock unused", remove);
    add_spare_options(*removing.app, *removing.words);
    removing.app->add_option("--count", removing.words->count, "how many (default: 1)")
        ->check(CLI::PositiveNumber);
    removing.app->add_option("--cause", removing.words->cause, "used or lost")
        ->check(CLI::IsMember({"used", "lost"}))
        ->capture_default_str();

    const auto counting =
        add_verb<SpareWords>(spare, common, work, "count", "say how many there really are", count);
    add_spare_options(*counting.app, *counting.words);
    counting.app->add_option("--found", counting.words->count, "how many were counted")
        ->required()
        ->check(CLI::NonNegativeNumber);

    const auto listing = add_verb<ListWords>(spare, common, work, "list", "what is in stock", list);
    listing.app->add_flag("--movements", listing.words->movements, "every coming and going instead");

    add_spare_order(spare, common, work);
}

} // namespace harpkeep::cli
