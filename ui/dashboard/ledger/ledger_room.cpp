// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "reason/break_risk.hpp"
#include "records/money.hpp"
#include "ui/dashboard/ledger/ledger_diary.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/support/harp_report.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <algorithm>
#include <cmath>
#include <map>

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

/// Whether strings are likely to break. Ages of a month share one answer where it is a clear one.
class RiskTable {
  public:
    explicit RiskTable(const LifeModel& model) : model_(model) {}

    bool is_at_risk(const StringInUse& string)
    {
        constexpr double month_days = 30.0, clear = 0.03;
        const double age_days = string.least_age_days();
        StringInUse usual = string;
        usual.age_days = month_days * std::round(age_days / month_days);
        const auto key = std::pair{model_.group_of(string), *usual.age_days};
        auto found = chances_.find(key);
        if (found == chances_.end()) found = chances_.emplace(key, chance(usual)).first;
        if (std::abs(found->second - room_chance) > clear) return found->second > room_chance;
        return chance(string) >= room_chance;
    }

  private:
    [[nodiscard]] double chance(const StringInUse& string) const
    {
        return stats::mean_failure_within(model_.lives, model_.group_of(string), string.least_age_days(),
                                          room_horizon_days);
    }

    const LifeModel& model_;
    std::map<std::pair<std::size_t, double>, double> chances_;
};

/// What the rows of a room have in common.
struct RoomBase {
    std::map<Uuid, std::string> room_by_harp;
    std::vector<ReminderRecord> reminders;
    const SchoolKnowledge* school = nullptr;
    std::optional<RiskTable> risks; ///< nothing: too little is known of strings
    Date today;
};

std::map<Uuid, std::string> room_names(const std::vector<RoomRecord>& rooms,
                                       const std::vector<PlacementRecord>& placements)
{
    std::map<Uuid, std::string> names, by_harp;
    for (const auto& room : rooms) names[room.id] = room.details.name;
    for (const auto& placement : placements)
        by_harp[placement.details.harp_id] =
            placement.details.room_id ? names[*placement.details.room_id] : std::string{text::no_room};
    return by_harp;
}

Result<std::vector<StringLife>> strings_of(const db::Ledger& ledger, const RoomBase& base, const Uuid& harp)
{
    const auto known = base.school->strings.find(harp);
    if (known != base.school->strings.end()) return known->second;
    return db::string_lives(ledger, harp);
}

/// Adds what the strings say: cost since a day, and how many are at risk.
void add_strings(RoomFacts& facts, Cost& cost, RoomBase& base, const std::vector<StringLife>& lives,
                 Date since)
{
    for (const auto& life : lives) {
        if (life.string.put_on && *life.string.put_on >= since) cost.add(life.string.cost);
        if (life.removal || !life.string.put_on || !base.risks) continue;
        const double age_days = days_since_epoch(base.today) - days_since_epoch(*life.string.put_on);
        facts.strings_at_risk += base.risks->is_at_risk(
            {facts.harp.details.name, life.string.place, life.string.make.material, std::max(0.0, age_days)});
    }
}

} // namespace

Result<PageModel> LedgerSource::load_room()
{
    if (reckoned_.room_page) return *reckoned_.room_page;
    const auto lines = db::harp_lines(ledger_);
    if (!lines) return failure(lines.error());
    const auto rooms = db::rooms(ledger_);
    if (!rooms) return failure(rooms.error());
    const auto placements = db::current_placements(ledger_);
    if (!placements) return failure(placements.error());
    auto reminders = db::reminders(ledger_);
    if (!reminders) return failure(reminders.error());
    const auto school = reckoned_.school(std::nullopt);
    if (!school) return failure(school.error());
    RoomBase base{.room_by_harp = room_names(*rooms, *placements),
                  .reminders = std::move(*reminders),
                  .school = *school,
                  .risks = std::nullopt,
                  .today = today()};
    if ((*school)->lives.model) base.risks.emplace(*(*school)->lives.model);

    RoomModel model;
    model.school = ledger_name();
    model.today = day_of(base.today);
    model.school_year = ui::school_year_of(base.today).from.year;
    for (const auto& room : *rooms) model.rooms.push_back(room.details.name);
    std::sort(model.rooms.begin(), model.rooms.end());
    const Date year_ago = plus_months(base.today, -12);
    Cost total;
    for (const auto& line : *lines) {
        if (line.left) continue;
        const auto harp = db::harp_with_id(ledger_, line.id);
        if (!harp) return failure(harp.error());
        const auto loans = db::loans_of(ledger_, line.id);
        if (!loans) return failure(loans.error());
        auto check = db::latest_check(ledger_, line.id);
        if (!check) return failure(check.error());
        const auto visits = db::visits_of(ledger_, line.id);
        if (!visits) return failure(visits.error());
        const auto tolerance = ui::tolerances_of(ledger_, line.id);
        if (!tolerance) return failure(tolerance.error());
        const auto lives = strings_of(ledger_, base, line.id);
        if (!lives) return failure(lives.error());

        RoomFacts facts{.harp = *harp};
        const auto room = base.room_by_harp.find(line.id);
        facts.room = room == base.room_by_harp.end() ? std::string{text::no_room} : room->second;
        facts.loans = *loans;
        for (const auto& loan : *loans)
            if (!loan.back) facts.room.clear();
        facts.check = std::move(*check);
        if (!visits->empty()) facts.last_visit = visits->back().visit.visited_on;
        facts.tolerance = *tolerance;
        const auto last_check =
            facts.check ? std::optional{local_date(facts.check->header.taken)} : std::nullopt;
        const auto due = due_of(upkeep_of(*harp, *visits, last_check, *lives, *loans), base.reminders,
                                plus_months(base.today, 3));
        if (!due.empty()) facts.due = due.front();
        Cost cost;
        for (const auto& visit : *visits)
            if (visit.visit.visited_on >= year_ago) cost.add(visit.visit.cost);
        add_strings(facts, cost, base, *lives, year_ago);
        facts.cost_minor_units = cost.minor_units;
        facts.currency = cost.currency;
        if (cost.minor_units > 0) total.add(Money{cost.minor_units, cost.currency});
        model.rows.push_back(room_row_from(facts));
    }
    if (model.rows.empty()) return EmptyPage{EmptyPage::Why::no_harp, {}};
    model.currency = total.currency;
    model.cost_total = total.minor_units > 0 ? money_text({total.minor_units, total.currency}) : "0";
    reckoned_.room_page = model;
    return model;
}

} // namespace harpkeep::dashboard
