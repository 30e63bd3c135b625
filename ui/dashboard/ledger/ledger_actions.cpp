// SPDX-License-Identifier: MIT
#include "db/ledger/things.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "records/money.hpp"
#include "records/wanted_note.hpp"
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

StringMake make_of(const MakeChoice& choice)
{
    StringMake make;
    make.material = choice.material;
    if (choice.gauge_mm > 0.0) make.diameter = Millimetres{choice.gauge_mm};
    make.wrap_material = choice.wrap_material;
    if (!choice.wrap_material.empty() && choice.wrap_outer_mm > 0.0)
        make.wrap_outer_diameter = Millimetres{choice.wrap_outer_mm};
    return make;
}

Outcome done(std::string message)
{
    return {std::move(message), true, std::nullopt, std::nullopt};
}

} // namespace

Result<Outcome> LedgerSource::put_on(const Uuid& harp, const PutStringOn& wish)
{
    const StringPlace place = wish.place;
    const auto plan = db::string_plan(ledger_, harp);
    if (!plan) return failure(plan.error());
    const auto before = db::string_lives(ledger_, harp, place);
    if (!before) return failure(before.error());
    MountedString string{.harp_id = harp, .place = place, .put_on = today()};
    const auto planned =
        std::find_if(plan->begin(), plan->end(), [&](const auto& p) { return p.details.place == place; });
    // As said; else as planned; else as the string before.
    if (wish.make)
        string.make = make_of(*wish.make);
    else if (planned != plan->end())
        string.make = planned->details.make;
    else if (!before->empty())
        string.make = before->back().string.make;
    if (string.make.material.empty())
        return failure(ErrorCode::refused, fmt::format(text::which_string_format, harp_name(place)));
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

Result<Outcome> LedgerSource::plan(const Uuid& harp, const PlanString& wish)
{
    if (wish.make.material.empty() || wish.length_mm <= 0.0 || wish.make.gauge_mm <= 0.0)
        return failure(ErrorCode::invalid_argument,
                       fmt::format(text::plan_incomplete_format, harp_name(wish.place)));
    const auto before = db::string_plan(ledger_, harp);
    if (!before) return failure(before.error());
    PlannedString planned{.harp_id = harp, .place = wish.place};
    for (const auto& record : *before)
        if (record.details.place == wish.place) planned = record.details; // keeps supplier and weighed mass
    const std::string supplier = planned.make.supplier;
    planned.make = make_of(wish.make);
    planned.make.supplier = supplier;
    planned.length = Millimetres{wish.length_mm};
    const auto kept = db::plan_strings(ledger_, author_(), {planned});
    if (!kept) return failure(kept.error());
    return done(fmt::format(text::planned_format, harp_name(wish.place)));
}

Result<Outcome> LedgerSource::add_visit(const Uuid& harp, const AddVisit& wish)
{
    Visit visit;
    visit.harp_id = harp;
    visit.visited_on = date_of(wish.day);
    visit.technician = wish.who.empty() ? text::visiting_technician : wish.who;
    if (!wish.cost.empty()) {
        visit.cost = money_from_text(wish.cost);
        if (!visit.cost)
            return failure(ErrorCode::invalid_argument, fmt::format(text::cost_wrong_format, wish.cost));
    }
    if (!wish.work.empty()) visit.work.push_back(visit_work_from_text(wish.work));
    const auto added = db::add_visit(ledger_, author_(), visit);
    if (!added) return failure(added.error());
    return done(text::visit_done);
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

Result<Outcome> LedgerSource::want(const Uuid& harp, const std::string& part)
{
    const Note note{harp, std::nullopt, today(), wanted_words(part), {}};
    if (!wanted_part(note)) return failure(ErrorCode::invalid_argument, text::wanted_empty);
    const auto added = db::add_note(ledger_, author_(), note);
    if (!added) return failure(added.error());
    return done(fmt::format(text::wanted_done_format, part));
}

Result<Outcome> LedgerSource::lend(const LendHarp& wish)
{
    const auto id = uuid_from_string(wish.harp);
    if (!id) return failure(ErrorCode::not_found, text::no_harp_chosen);
    const auto harp = db::harp_with_id(ledger_, *id);
    if (!harp) return failure(harp.error());
    const auto lent =
        db::lend_harp(ledger_, author_(), {*id, wish.borrower, wish.from, wish.until, wish.condition, {}});
    if (!lent) return failure(lent.error());
    return done(fmt::format(text::lent_format, harp->details.name, wish.borrower));
}

Result<Outcome> LedgerSource::change_loan(const ChangeLoan& wish)
{
    const auto id = uuid_from_string(wish.loan);
    const auto loans = db::all_loans(ledger_);
    if (!loans) return failure(loans.error());
    for (const auto& record : *loans) {
        if (record.id != id) continue;
        Loan loan = record.loan; // keeps its remarks
        loan.borrower = wish.borrower;
        loan.from = wish.from;
        loan.until = wish.until;
        loan.condition_out = wish.condition;
        const auto changed = db::change_loan(ledger_, author_(), record.id, loan, {});
        if (!changed) return failure(changed.error());
        return done(fmt::format(text::loan_changed_format, wish.borrower));
    }
    return failure(ErrorCode::not_found, text::loan_gone);
}

Result<Outcome> LedgerSource::give_back(const ReturnHarp& wish)
{
    const auto id = uuid_from_string(wish.harp);
    if (!id) return failure(ErrorCode::not_found, text::no_harp_chosen);
    const auto harp = db::harp_with_id(ledger_, *id);
    if (!harp) return failure(harp.error());
    const auto back =
        db::return_harp(ledger_, author_(), *id, {.returned_on = wish.on, .condition_back = wish.condition});
    if (!back) return failure(back.error());
    return done(fmt::format(text::returned_format, harp->details.name));
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
        return failure(ErrorCode::not_found, fmt::format(text::unknown_spare_format, wish.what));
    const auto moved = db::move_spares(ledger_, author_(), movement);
    if (!moved) return failure(moved.error());
    return done(fmt::format(text::stock_done_format, wish.what));
}

Result<Outcome> LedgerSource::perform(const Action& action, const Query& query, JobContext& context)
{
    const auto of_harp = [&](auto&& work) -> Result<Outcome> {
        const auto id = uuid_from_string(query.harp);
        if (!id) return failure(ErrorCode::not_found, text::no_harp_chosen);
        return work(*id);
    };
    return std::visit(
        Overloaded{[&](const AddHarp& wish) -> Result<Outcome> {
                       if (wish.name.find_first_not_of(' ') == std::string::npos)
                           return failure(ErrorCode::invalid_argument, text::name_needed);
                       const auto layout =
                           make_layout({.kind = wish.kind, .string_count = wish.string_count});
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
                       return of_harp([&](const Uuid& harp) { return put_on(harp, wish); });
                   },
                   [&](const PlanString& wish) {
                       return of_harp([&](const Uuid& harp) { return plan(harp, wish); });
                   },
                   [&](const StringBroke& wish) {
                       return of_harp([&](const Uuid& harp) { return broke(harp, wish.place); });
                   },
                   [&](const AddToStock& wish) { return add_to_stock(wish); },
                   [&](const WantPart& wish) {
                       return of_harp([&](const Uuid& harp) { return want(harp, wish.words); });
                   },
                   [&](const DropPart& wish) -> Result<Outcome> {
                       const auto id = uuid_from_string(wish.key);
                       if (!id) return failure(ErrorCode::not_found, text::wanted_gone);
                       const auto gone =
                           db::make_void(ledger_, author_(), *id, text::wanted_no_longer_reason);
                       if (!gone) return failure(gone.error());
                       return done(text::wanted_dropped);
                   },
                   [&](const LendHarp& wish) { return lend(wish); },
                   [&](const ChangeLoan& wish) { return change_loan(wish); },
                   [&](const ReturnHarp& wish) { return give_back(wish); },
                   [&](const AddVisit& wish) {
                       return of_harp([&](const Uuid& harp) { return add_visit(harp, wish); });
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
                       return of_harp([&](const Uuid& harp) {
                           return check_recordings(harp, wish, query.a4_hz, context);
                       });
                   },
                   [&](const ImportClimate& wish) {
                       return of_harp([&](const Uuid& harp) { return import_climate(harp, wish.path); });
                   },
                   [&](const auto&) {
                       // What is left is told to the live session.
                       return of_harp([&](const Uuid& harp) { return tell_live(action, harp, query); });
                   }},
        action);
}

} // namespace harpkeep::dashboard
