// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

template <class... Ts>
struct Overloaded : Ts... {
    using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

Outcome done(std::string message)
{
    return {std::move(message), true, std::nullopt, std::nullopt};
}

} // namespace

Result<Outcome> LedgerSource::put_on(const Uuid& harp, StringPlace place)
{
    const auto plan = db::string_plan(ledger_, harp);
    if (!plan) return failure(plan.error());
    const auto before = db::string_lives(ledger_, harp, place);
    if (!before) return failure(before.error());
    MountedString string{.harp_id = harp, .place = place, .put_on = today()};
    const auto planned =
        std::find_if(plan->begin(), plan->end(), [&](const auto& p) { return p.details.place == place; });
    // As planned; else as the string before.
    if (planned != plan->end())
        string.make = planned->details.make;
    else if (!before->empty())
        string.make = before->back().string.make;
    if (string.make.material.empty())
        return failure(ErrorCode::refused, fmt::format("putting a string on {}: the stringing plan does not "
                                                       "say which; enter the plan, or use harpkeep string on "
                                                       "with --material",
                                                       harp_name(place)));
    const auto stock = db::spare_stock(ledger_);
    if (!stock) return failure(stock.error());
    db::PutOnOptions options;
    options.from_spares = std::any_of(stock->begin(), stock->end(), [&](const SpareStock& spare) {
        return spare.place == place && spare.count > 0 && spare.make.material == string.make.material &&
               spare.make.diameter == string.make.diameter && (!spare.harp_id || *spare.harp_id == harp);
    });
    if (!before->empty() && !before->back().removal)
        options.old_string = db::OldString{RemovalReason::schedule, std::nullopt};
    const auto added = db::put_on(ledger_, author_(), string, options);
    if (!added) return failure(added.error());
    return done(fmt::format(text::put_on_done_format, harp_name(place)));
}

Result<Outcome> LedgerSource::broke(const Uuid& harp, StringPlace place)
{
    StringRemoval removal;
    removal.removed_on = today();
    removal.reason = RemovalReason::broke;
    const auto off = db::take_off(ledger_, author_(), harp, place, removal);
    if (!off) return failure(off.error());
    return done(fmt::format(text::broke_done_format, harp_name(place), iso_date(today())));
}

Result<Outcome> LedgerSource::add_to_stock(const AddToStock& wish)
{
    // The kind is known by its name, from the stock or from strings that are or were on.
    const auto movements = db::spare_movements(ledger_);
    if (!movements) return failure(movements.error());
    SpareMovement movement;
    movement.change = wish.pieces;
    movement.moved_on = today();
    for (const auto& known : *movements)
        if (spare_name(known.details.place, known.details.make) == wish.what) {
            movement.place = known.details.place;
            movement.make = known.details.make;
        }
    if (movement.make.material.empty()) {
        const auto all = db::all_string_lives(ledger_);
        if (!all) return failure(all.error());
        for (const auto& life : *all)
            if (spare_name(life.string.place, life.string.make) == wish.what) {
                movement.place = life.string.place;
                movement.make = life.string.make;
            }
    }
    if (movement.make.material.empty())
        return failure(ErrorCode::not_found,
                       fmt::format("adding to the stock: no string is known as {}", wish.what));
    const auto moved = db::move_spares(ledger_, author_(), movement);
    if (!moved) return failure(moved.error());
    return done(fmt::format(text::stock_done_format, wish.what));
}

Result<Outcome> LedgerSource::perform(const Action& action, const Query& query, JobContext& context)
{
    const auto of_harp = [&](auto&& work) -> Result<Outcome> {
        const auto id = uuid_from_string(query.harp);
        if (!id) return failure(ErrorCode::not_found, "no harp is chosen; add one first");
        return work(*id);
    };
    const auto command_line = [](const char* command) -> Result<Outcome> {
        return failure(ErrorCode::refused, fmt::format(text::use_command_line_format, command));
    };
    return std::visit(
        Overloaded{
            [&](const AddHarp& wish) -> Result<Outcome> {
                if (wish.name.find_first_not_of(' ') == std::string::npos)
                    return failure(ErrorCode::invalid_argument,
                                   "a harp needs a name; write one and try again");
                const auto layout = make_layout({.kind = wish.kind, .string_count = wish.string_count});
                if (!layout) return failure(layout.error());
                HarpDetails details;
                details.name = wish.name;
                details.layout = *layout;
                const auto added = db::add_harp(ledger_, author_(), details);
                if (!added) return failure(added.error());
                Outcome outcome =
                    done(fmt::format(text::added_harp_format, wish.name, layout->strings.size()));
                outcome.go_to = Page::today;
                outcome.choose_harp = to_string(*added);
                return outcome;
            },
            [&](const PutStringOn& wish) {
                return of_harp([&](const Uuid& harp) { return put_on(harp, wish.place); });
            },
            [&](const StringBroke& wish) {
                return of_harp([&](const Uuid& harp) { return broke(harp, wish.place); });
            },
            [&](const AddToStock& wish) { return add_to_stock(wish); },
            [&](const AddVisit& wish) {
                return of_harp([&](const Uuid& harp) -> Result<Outcome> {
                    Visit visit;
                    visit.harp_id = harp;
                    visit.visited_on = date_of(wish.day);
                    visit.technician = text::visiting_technician;
                    if (!wish.work.empty()) visit.work.push_back({std::nullopt, std::nullopt, wish.work, ""});
                    const auto added = db::add_visit(ledger_, author_(), visit);
                    if (!added) return failure(added.error());
                    return done(text::visit_done);
                });
            },
            [&](const SetTolerance& wish) {
                return of_harp([&](const Uuid& harp) -> Result<Outcome> {
                    const auto before = ui::tolerances_of(ledger_, harp);
                    const auto set = ui::keep_tolerances(
                        ledger_, author_(), harp,
                        with_choice(before ? *before : ToleranceSettings{}, wish.tolerance));
                    if (!set) return failure(set.error());
                    return done(text::tolerance_done);
                });
            },
            [&](const CheckRecordings& wish) {
                return of_harp([&](const Uuid& harp) { return check_recordings(harp, wish, context); });
            },
            [&](const ImportClimate& wish) {
                return of_harp([&](const Uuid& harp) { return import_climate(harp, wish.path); });
            },
            [&](const StartGuided&) { return command_line("harpkeep check --live --harp NAME"); },
            [&](const StartTuning&) { return command_line("harpkeep tune --harp NAME"); },
            [&](const auto&) -> Result<Outcome> { return Outcome{}; }},
        action);
}

} // namespace harpkeep::dashboard
