// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "reason/break_risk.hpp"
#include "records/money.hpp"
#include "ui/dashboard/ledger/ledger_diary.hpp"
#include "ui/dashboard/ledger/ledger_pedals.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/ledger/ledger_today.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/harp_knowledge.hpp"
#include "ui/support/harp_report.hpp"
#include "ui/support/material_setting.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

namespace harpkeep::dashboard {

namespace {

constexpr int room_horizon_days = 90; // as the head of the column says: three months
constexpr double room_chance = 0.15;  // own choice, as on the page of strings

/// What a harp cost since a day, in the currency it was mostly paid in.
struct Cost {
    std::int64_t minor_units = 0;
    std::string currency;

    void add(const std::optional<Money>& money)
    {
        if (!money) return;
        if (currency.empty()) currency = money->currency;
        if (money->currency == currency) minor_units += money->minor_units;
    }
};

} // namespace

Result<PageModel> LedgerSource::load_today(const HarpRecord& harp)
{
    const auto knowledge = ui::harp_knowledge(ledger_, harp);
    if (!knowledge) return failure(knowledge.error());
    if (!knowledge->check) return EmptyPage{EmptyPage::Why::no_check, {}};
    return today_from(*knowledge, today());
}

Result<PageModel> LedgerSource::load_history(const HarpRecord& harp, const Query& query)
{
    const auto knowledge = ui::harp_knowledge(ledger_, harp);
    if (!knowledge) return failure(knowledge.error());
    if (knowledge->history.empty()) return EmptyPage{EmptyPage::Why::no_check, {}};
    if (!fit_ || fit_->first != harp.id) fit_.emplace(harp.id, fit_history(*knowledge));
    return history_from(*knowledge, fit_->second, query.history, query.compare_before, query.compare_after,
                        today());
}

Result<PageModel> LedgerSource::load_strings(const HarpRecord& harp, const Query& query)
{
    const auto known = lives();
    if (!known) return failure(known.error());
    StringsFacts facts{.harp = harp, .today = today()};
    const auto take = [](auto result, auto& into) -> Result<void> {
        if (!result) return failure(result.error());
        into = std::move(*result);
        return {};
    };
    for (const auto& done :
         {take(db::string_lives(ledger_, harp.id), facts.of_harp),
          take(db::strings_on(ledger_, harp.id), facts.on),
          take(db::string_plan(ledger_, harp.id), facts.plan), take(db::spare_stock(ledger_), facts.stock),
          take(db::spare_movements(ledger_), facts.movements),
          take(db::all_string_lives(ledger_), facts.school)})
        if (!done) return failure(done.error());
    std::erase_if(facts.school, [](const StringLife& life) { return life.removal.has_value(); });
    return strings_from(facts, **known, query.horizon_days);
}

Result<PageModel> LedgerSource::load_tension(const HarpRecord& harp, const Query& query)
{
    const auto plan = db::string_plan(ledger_, harp.id);
    if (!plan) return failure(plan.error());
    const auto materials = ui::materials_of(ledger_);
    if (!materials) return failure(materials.error());
    auto model = tension_from(harp, *plan, *materials, query.a4_hz, query.trial);
    if (!model) return EmptyPage{EmptyPage::Why::no_plan, {}};
    return *model;
}

Result<PageModel> LedgerSource::load_pedals(const HarpRecord& harp, const Query& query)
{
    const auto check = db::latest_check(ledger_, harp.id);
    if (!check) return failure(check.error());
    if (!*check) return EmptyPage{EmptyPage::Why::no_check, {}};
    const auto tolerance = ui::tolerances_of(ledger_, harp.id);
    if (!tolerance) return failure(tolerance.error());
    PedalSetting flat;
    flat.alterations.fill(-1);
    return pedals_from(harp, **check, query.pedals.value_or(flat), *tolerance);
}

Result<std::vector<DueItem>> LedgerSource::due_of(const HarpUpkeep& upkeep, Date until)
{
    auto reminders = db::reminders(ledger_);
    if (!reminders) return failure(reminders.error());
    std::erase_if(*reminders, [&](const ReminderRecord& reminder) {
        return reminder.reminder.harp_id != upkeep.harp.id;
    });
    auto items = due_work({upkeep}, *reminders, {}, today(), until);
    std::stable_sort(items.begin(), items.end(),
                     [](const DueItem& a, const DueItem& b) { return a.due_on < b.due_on; });
    return items;
}

Result<PageModel> LedgerSource::load_visits(const HarpRecord& harp)
{
    VisitsFacts facts{.harp = harp, .today = today()};
    const auto take = [](auto result, auto& into) -> Result<void> {
        if (!result) return failure(result.error());
        into = std::move(*result);
        return {};
    };
    for (const auto& done :
         {take(db::visits_of(ledger_, harp.id), facts.visits),
          take(db::checks_of(ledger_, harp.id), facts.checks),
          take(db::string_lives(ledger_, harp.id), facts.lives),
          take(db::loans_of(ledger_, harp.id), facts.loans), take(db::notes(ledger_, harp.id), facts.notes)})
        if (!done) return failure(done.error());
    const auto tolerance = ui::tolerances_of(ledger_, harp.id);
    if (!tolerance) return failure(tolerance.error());
    std::set<Uuid> wanted;
    for (const auto& visit : facts.visits)
        for (const auto& check : {visit.check_before, visit.check_after})
            if (check) wanted.insert(*check);
    for (const auto& id : wanted) {
        const auto check = db::check(ledger_, id);
        if (!check) return failure(check.error());
        facts.out_in_check[id] = steps_out(check->result, *tolerance);
    }
    const auto last_check =
        facts.checks.empty() ? std::nullopt : std::optional{local_date(facts.checks.front().header.taken)};
    auto due =
        due_of(upkeep_of(harp, facts.visits, last_check, facts.lives, facts.loans), plus_months(today(), 12));
    if (!due) return failure(due.error());
    facts.due = std::move(*due);
    return visits_from(facts);
}

Result<PageModel> LedgerSource::load_climate(const HarpRecord& harp)
{
    const auto heading = heading_of(harp);
    if (!heading) return failure(heading.error());
    const auto samples = db::climate_of_harp(ledger_, harp.id, 0, author_().now.utc_ms);
    if (!samples) return failure(samples.error());
    if (samples->empty()) return EmptyPage{EmptyPage::Why::no_climate, {}};
    return climate_from(heading->whereabouts, *samples, today());
}

Result<PageModel> LedgerSource::load_room()
{
    const auto records = db::harps(ledger_);
    if (!records) return failure(records.error());
    const auto known = lives();
    if (!known) return failure(known.error());
    const auto all = db::all_string_lives(ledger_);
    if (!all) return failure(all.error());
    RoomModel model;
    model.school = ledger_name();
    model.today = day_of(today());
    model.school_year = ui::school_year_of(today()).from.year;
    const auto rooms = db::rooms(ledger_);
    if (!rooms) return failure(rooms.error());
    for (const auto& room : *rooms) model.rooms.push_back(room.details.name);
    std::sort(model.rooms.begin(), model.rooms.end());
    const Date year_ago = plus_months(today(), -12);
    Cost total;
    for (const auto& harp : *records) {
        if (harp.details.left_on) continue;
        RoomFacts facts{.harp = harp};
        const auto heading = heading_of(harp);
        if (!heading) return failure(heading.error());
        facts.room = heading->whereabouts;
        const auto loans = db::loans_of(ledger_, harp.id);
        if (!loans) return failure(loans.error());
        facts.loans = *loans;
        for (const auto& loan : *loans)
            if (!loan.back) facts.room.clear();
        auto check = db::latest_check(ledger_, harp.id);
        if (!check) return failure(check.error());
        facts.check = std::move(*check);
        const auto visits = db::visits_of(ledger_, harp.id);
        if (!visits) return failure(visits.error());
        if (!visits->empty()) facts.last_visit = visits->back().visit.visited_on;
        const auto tolerance = ui::tolerances_of(ledger_, harp.id);
        if (!tolerance) return failure(tolerance.error());
        facts.tolerance = *tolerance;
        std::vector<StringLife> of_harp;
        for (const auto& life : *all)
            if (life.string.harp_id == harp.id) of_harp.push_back(life);
        const auto last_check =
            facts.check ? std::optional{local_date(facts.check->header.taken)} : std::nullopt;
        const auto due =
            due_of(upkeep_of(harp, *visits, last_check, of_harp, *loans), plus_months(today(), 3));
        if (!due) return failure(due.error());
        if (!due->empty()) facts.due = due->front();
        Cost cost;
        for (const auto& visit : *visits)
            if (visit.visit.visited_on >= year_ago) cost.add(visit.visit.cost);
        std::vector<StringInUse> strings;
        for (const auto& life : of_harp) {
            if (life.string.put_on && *life.string.put_on >= year_ago) cost.add(life.string.cost);
            if (life.removal || !life.string.put_on) continue;
            strings.push_back({harp.details.name, life.string.place, life.string.make.material,
                               std::max(0.0, static_cast<double>(days_since_epoch(today()) -
                                                                 days_since_epoch(*life.string.put_on)))});
        }
        if ((*known)->model && !strings.empty())
            for (const auto& risk : break_risks(*(*known)->model, strings, room_horizon_days).strings)
                facts.strings_at_risk += risk.chance.value >= room_chance;
        facts.cost_minor_units = cost.minor_units;
        facts.currency = cost.currency;
        if (cost.minor_units > 0) total.add(Money{cost.minor_units, cost.currency});
        model.rows.push_back(room_row_from(facts));
    }
    if (model.rows.empty()) return EmptyPage{EmptyPage::Why::no_harp, {}};
    model.currency = total.currency;
    model.cost_total = total.minor_units > 0 ? money_text({total.minor_units, total.currency}) : "0";
    return model;
}

Result<PageModel> LedgerSource::load_settings(const HarpRecord* harp)
{
    SettingsModel model;
    if (harp != nullptr) {
        const auto tolerance = ui::tolerances_of(ledger_, harp->id);
        // A setting that cannot be read can be set anew here, so the page is shown with the usual limits.
        if (tolerance) model.tolerance = choice_of(*tolerance);
    }
    const auto records = db::harps(ledger_);
    if (!records) return failure(records.error());
    std::error_code error;
    const auto size = std::filesystem::file_size(path_, error);
    model.ledger_path = path_;
    model.example = example();
    model.ledger_text = fmt::format(text::ledger_counts_format, records->size(),
                                    error ? 0.0 : static_cast<double>(size) / 1e6);
    return model;
}

} // namespace harpkeep::dashboard
