// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_diary.hpp"

#include "reason/step_verdict.hpp"
#include "records/money.hpp"
#include "records/wanted_note.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace harpkeep::dashboard {

namespace {

constexpr int settling_days = 14;    // "about two weeks" (common practice)
constexpr int old_string_days = 730; // "replace if over two years old in the upper three octaves"

void add_strings(VisitsModel& model, const VisitsFacts& facts)
{
    for (const auto& life : facts.lives) {
        const std::string place = harp_name(life.string.place);
        if (life.string.put_on && life.string.put_on->is_full())
            model.diary.push_back({to_string(life.id), day_of(*life.string.put_on), DiaryKind::string_change,
                                   fmt::format(text::diary_put_on_format, place),
                                   make_text(life.string.make)});
        if (life.removal && life.removal->details.removed_on.is_full())
            model.diary.push_back({to_string(life.removal->id), day_of(life.removal->details.removed_on),
                                   DiaryKind::string_change, fmt::format(text::diary_off_format, place),
                                   std::string{removal_reason_name(life.removal->details.reason)}});
    }
}

void add_loans(VisitsModel& model, const VisitsFacts& facts)
{
    for (const auto& loan : facts.loans) {
        model.diary.push_back({to_string(loan.id), day_of(loan.loan.from), DiaryKind::loan,
                               fmt::format(text::diary_loan_format, loan.loan.borrower),
                               loan.loan.condition_out});
        if (loan.back)
            model.diary.push_back({to_string(loan.id), day_of(loan.back->details.returned_on),
                                   DiaryKind::loan, text::diary_back, loan.back->details.condition_back});
    }
}

void add_preparation(VisitsModel& model, const VisitsFacts& facts)
{
    int old = 0, fresh = 0;
    for (const auto& life : facts.lives) {
        if (life.removal) continue;
        const bool top = life.string.place.harp_octave() <= 2;
        const int age = life.string.put_on
                            ? days_since_epoch(facts.today) - days_since_epoch(*life.string.put_on)
                            : old_string_days + 1;
        old += top && age > old_string_days;
        fresh += age < settling_days;
    }
    if (old > 0)
        model.preparation.push_back(
            {fmt::format(text::prepare_old_format, old), text::prepare_old_why, State::watch});
    if (fresh > 0)
        model.preparation.push_back(
            {fmt::format(text::prepare_fresh_format, fresh), text::prepare_fresh_why, State::watch});
    model.preparation.push_back({text::prepare_day, text::prepare_day_why, State::fine});
}

LoanLine line_of(const LoanRecord& loan)
{
    LoanLine line{to_string(loan.id),
                  loan.loan.borrower,
                  loan.loan.from,
                  loan.loan.until,
                  {},
                  loan.loan.condition_out,
                  {}};
    if (!loan.back) return line;
    line.back = loan.back->details.returned_on;
    line.condition_back = loan.back->details.condition_back;
    return line;
}

VisitRow row_of(const VisitRecord& record, const VisitsFacts& facts)
{
    VisitRow row;
    row.key = to_string(record.id);
    row.day = day_of(record.visit.visited_on);
    row.who = record.visit.technician;
    for (const auto& work : record.visit.work) row.work += (row.work.empty() ? "" : "; ") + work.work;
    if (record.visit.cost) row.cost = money_text(*record.visit.cost);
    const auto out_in = [&](const std::optional<Uuid>& check) -> std::optional<int> {
        if (!check) return std::nullopt;
        const auto found = facts.out_in_check.find(*check);
        return found == facts.out_in_check.end() ? std::nullopt : std::optional{found->second};
    };
    row.steps_out_before = out_in(record.check_before);
    row.steps_out_after = out_in(record.check_after);
    row.result = record.visit.remarks;
    return row;
}

} // namespace

HarpUpkeep upkeep_of(const HarpRecord& harp, const std::vector<VisitRecord>& visits,
                     std::optional<Date> last_check, const std::vector<StringLife>& lives,
                     const std::vector<LoanRecord>& loans)
{
    HarpUpkeep out;
    out.harp = harp;
    if (!visits.empty()) out.last_visit = visits.back().visit.visited_on;
    out.last_check = last_check;
    for (const auto& string : harp.details.layout.strings) {
        bool any = false, on = false;
        for (const auto& life : lives) {
            if (life.string.place != string.place) continue;
            any = true;
            if (life.removal) continue;
            on = true;
            out.strings_on.push_back(life);
        }
        if (any && !on) out.bare.push_back(string.place);
    }
    for (const auto& loan : loans)
        if (!loan.back) out.open_loans.push_back(loan);
    return out;
}

int steps_out(const CheckResult& result, const ToleranceSettings& tolerance)
{
    int out = 0;
    for (const auto& verdict : judge_steps(result.steps, {}, tolerance))
        out += verdict.conformity == Conformity::out;
    return out;
}

VisitsModel visits_from(const VisitsFacts& facts)
{
    VisitsModel model;
    model.today = day_of(facts.today);
    for (const auto& visit : facts.visits) {
        model.visits.insert(model.visits.begin(), row_of(visit, facts));
        model.diary.push_back({to_string(visit.id), day_of(visit.visit.visited_on), DiaryKind::visit,
                               text::diary_visit, visit.visit.technician});
    }
    for (const auto& check : facts.checks)
        model.diary.push_back({to_string(check.id), day_of(local_date(check.header.taken)), DiaryKind::check,
                               text::diary_check, check.header.remarks});
    add_strings(model, facts);
    add_loans(model, facts);
    for (const auto& item : facts.due)
        model.diary.push_back({fmt::format("due-{}", model.diary.size()), day_of(item.due_on),
                               DiaryKind::reminder, item.what, item.why, true});
    std::stable_sort(model.diary.begin(), model.diary.end(),
                     [](const DiaryEntry& a, const DiaryEntry& b) { return a.day < b.day; });
    add_preparation(model, facts);
    for (auto note = facts.notes.rbegin(); note != facts.notes.rend(); ++note)
        if (const auto part = wanted_part(note->details))
            model.wanted.push_back({to_string(note->id), *part});
    return model;
}

ClimateModel climate_from(const std::string& place, const std::vector<ClimateSample>& samples, Date today)
{
    ClimateModel model;
    model.place = place;
    const double last = days_since_epoch(today) + 1.0;
    int inside = 0, count = 0;
    for (const auto& sample : samples) {
        // A sample of one kind only draws no point in the other plot: not a number is left out there.
        constexpr double none = std::numeric_limits<double>::quiet_NaN();
        ClimatePoint point{static_cast<double>(sample.taken.utc_ms) / 86'400'000.0,
                           sample.temperature ? sample.temperature->value() : none,
                           sample.humidity ? sample.humidity->value() : none};
        model.points.push_back(point);
        if (point.day < last - 90.0 || !sample.temperature || !sample.humidity) continue;
        ++count;
        inside += point.humidity_percent >= model.humidity_low_percent &&
                  point.humidity_percent <= model.humidity_high_percent &&
                  point.temperature_c >= model.temperature_low_c &&
                  point.temperature_c <= model.temperature_high_c;
    }
    model.share_inside = count > 0 ? static_cast<double>(inside) / count : 0.0;
    model.remarks.push_back({text::climate_no_constant, text::climate_no_constant_why, State::unsure});
    return model;
}

RoomRow room_row_from(const RoomFacts& facts)
{
    RoomRow row;
    row.key = to_string(facts.harp.id);
    row.name = facts.harp.details.name;
    row.kind = fmt::format("{}, {}", kind_name(facts.harp.details.layout.kind),
                           facts.harp.details.layout.strings.size());
    row.room = facts.room;
    for (const auto& loan : facts.loans) {
        if (!loan.back)
            row.loan = loan.loan.until ? fmt::format(text::loan_short_format, loan.loan.borrower,
                                                     iso_date(*loan.loan.until))
                                       : loan.loan.borrower;
        row.loans.insert(row.loans.begin(), line_of(loan));
    }
    // The one that is out stands first, even when another began later.
    std::stable_sort(row.loans.begin(), row.loans.end(),
                     [](const LoanLine& a, const LoanLine& b) { return !a.back && b.back; });
    if (facts.check) {
        row.checked_on = day_of(local_date(facts.check->header.taken));
        row.state = State::fine;
        for (const auto& verdict : judge_steps(facts.check->result.steps, {}, facts.tolerance)) {
            row.state = worse(row.state, state_of(verdict));
            row.steps_out += verdict.conformity == Conformity::out;
        }
        if (facts.check->result.steps.empty()) row.state = State::not_measured;
    }
    if (facts.last_visit) row.visited_on = day_of(*facts.last_visit);
    // A day belongs to the work that is due on it; what the state asks for has none.
    if (facts.due) {
        row.due_on = day_of(facts.due->due_on);
        row.due = facts.due->what;
    } else if (row.state == State::out)
        row.due = text::due_technician;
    else if (row.state == State::not_measured)
        row.due = text::due_first_check;
    else if (row.state == State::unsure)
        row.due = text::due_pluck_again;
    row.strings_at_risk = facts.strings_at_risk;
    if (facts.cost_minor_units > 0) {
        row.cost_text = money_text({facts.cost_minor_units, facts.currency});
        row.cost_year = static_cast<double>(facts.cost_minor_units);
    }
    return row;
}

} // namespace harpkeep::dashboard
