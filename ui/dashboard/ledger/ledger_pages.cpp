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
#include "ui/dashboard/widgets/path_entry.hpp"
#include "ui/support/harp_knowledge.hpp"
#include "ui/support/material_setting.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

namespace harpkeep::dashboard {

Result<PageModel> LedgerSource::load_today(const HarpRecord& harp)
{
    const auto knowledge = reckoned_.knowledge(harp);
    if (!knowledge) return failure(knowledge.error());
    if (!(*knowledge)->check) return EmptyPage{EmptyPage::Why::no_check, {}};
    return reckoned_.today_page(**knowledge);
}

Result<PageModel> LedgerSource::load_history(const HarpRecord& harp, const Query& query)
{
    const auto knowledge = reckoned_.knowledge(harp);
    if (!knowledge) return failure(knowledge.error());
    if ((*knowledge)->history.empty()) return EmptyPage{EmptyPage::Why::no_check, {}};
    return history_from(**knowledge, reckoned_.drift(**knowledge), query.history, query.compare_before,
                        query.compare_after, today());
}

Result<PageModel> LedgerSource::load_strings(const HarpRecord& harp, const Query& query)
{
    const auto school = reckoned_.school(harp.id);
    if (!school) return failure(school.error());
    const auto of_school = reckoned_.school_strings(**school, query.horizon_days);
    if (!of_school) return failure(of_school.error());
    StringsFacts facts{.harp = harp, .today = today()};
    const auto take = [](auto result, auto& into) -> Result<void> {
        if (!result) return failure(result.error());
        into = std::move(*result);
        return {};
    };
    for (const auto& done :
         {take(db::string_lives(ledger_, harp.id), facts.of_harp),
          take(db::string_plan(ledger_, harp.id), facts.plan), take(db::spare_stock(ledger_), facts.stock)})
        if (!done) return failure(done.error());
    facts.on = facts.of_harp;
    std::erase_if(facts.on, [](const StringLife& life) { return life.removal.has_value(); });
    auto model = strings_from(facts, (*school)->lives, **of_school, query.horizon_days);
    if ((*school)->is_part)
        model.advice.push_back({fmt::format(text::part_of_school_format, (*school)->harps.size()),
                                text::part_of_school_why, State::unsure});
    return model;
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

std::vector<DueItem> LedgerSource::due_of(const HarpUpkeep& upkeep,
                                          const std::vector<ReminderRecord>& reminders, Date until) const
{
    std::vector<ReminderRecord> own;
    for (const ReminderRecord& reminder : reminders)
        if (reminder.reminder.harp_id == upkeep.harp.id) own.push_back(reminder);
    auto items = due_work({upkeep}, own, {}, today(), until);
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
    const auto history = db::step_history(ledger_, harp.id);
    if (!history) return failure(history.error());
    for (const StoredCheck& check : *history)
        if (wanted.contains(check.id)) facts.out_in_check[check.id] = steps_out(check.result, *tolerance);
    const auto last_check =
        facts.checks.empty() ? std::nullopt : std::optional{local_date(facts.checks.front().header.taken)};
    const auto reminders = db::reminders(ledger_);
    if (!reminders) return failure(reminders.error());
    facts.due = due_of(upkeep_of(harp, facts.visits, last_check, facts.lives, facts.loans), *reminders,
                       plus_months(today(), 12));
    return visits_from(facts);
}

Result<PageModel> LedgerSource::load_climate(const HarpRecord& harp)
{
    const auto heading = heading_of(harp);
    if (!heading) return failure(heading.error());
    const std::int64_t now_ms = author_().now.utc_ms;
    const std::int64_t year_ago_ms = days_since_epoch(plus_months(today(), -12)) * std::int64_t{86'400'000};
    auto samples = db::climate_of_harp(ledger_, harp.id, 0, year_ago_ms - 1, db::ClimateDetail::days);
    if (!samples) return failure(samples.error());
    const auto of_year = db::climate_of_harp(ledger_, harp.id, year_ago_ms, now_ms);
    if (!of_year) return failure(of_year.error());
    samples->insert(samples->end(), of_year->begin(), of_year->end());
    if (samples->empty()) return EmptyPage{EmptyPage::Why::no_climate, {}};
    return climate_from(heading->whereabouts, *samples, today());
}

Result<PageModel> LedgerSource::load_settings(const HarpRecord* harp)
{
    SettingsModel model;
    if (harp != nullptr) {
        const auto tolerance = ui::tolerances_of(ledger_, harp->id);
        // A setting that cannot be read can be set anew here, so the page is shown with the usual limits.
        if (tolerance) model.tolerance = choice_of(*tolerance);
    }
    const auto harps = db::harp_names(ledger_);
    if (!harps) return failure(harps.error());
    std::error_code error;
    const auto size = std::filesystem::file_size(path_, error);
    model.ledger_path = shortened_path(path_);
    model.example = example();
    model.ledger_text =
        fmt::format(text::ledger_counts_format, harps->size(), error ? 0.0 : static_cast<double>(size) / 1e6);
    return model;
}

} // namespace harpkeep::dashboard
