// SPDX-License-Identifier: MIT
#include "ui/support/harp_knowledge.hpp"

#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <cstdlib>
#include <limits>

namespace harpkeep::ui {

namespace {

constexpr std::int64_t half_a_day_ms = 12LL * 3600 * 1000;

/// The humidity measured nearest to a moment.
std::optional<double> nearest_humidity(const std::vector<ClimateSample>& samples, Moment moment)
{
    std::optional<double> nearest;
    std::int64_t least_ms = std::numeric_limits<std::int64_t>::max();
    for (const auto& sample : samples) {
        const std::int64_t away_ms = std::llabs(sample.taken.utc_ms - moment.utc_ms);
        if (!sample.humidity || away_ms >= least_ms) continue;
        least_ms = away_ms;
        nearest = sample.humidity->value();
    }
    return nearest;
}

/// The humidity at each check, noted with it or logged around it.
std::optional<Error> add_humidities(const db::Ledger& ledger, HarpKnowledge& knowledge)
{
    std::vector<const StoredCheck*> without;
    std::vector<Moment> moments;
    for (const auto& check : knowledge.history) {
        if (check.header.humidity) {
            knowledge.humidity_percent[check.id] = check.header.humidity->value();
            continue;
        }
        without.push_back(&check);
        moments.push_back(check.header.taken);
    }
    const auto climate = db::climate_around(ledger, knowledge.harp.id, moments, half_a_day_ms);
    if (!climate) return climate.error();
    for (std::size_t i = 0; i < without.size(); ++i)
        if (const auto humidity = nearest_humidity((*climate)[i], moments[i]))
            knowledge.humidity_percent[without[i]->id] = *humidity;
    return std::nullopt;
}

/// Puts the value of a result into place, or hands its error on.
template <class T>
std::optional<Error> take(Result<T> result, T& into)
{
    if (!result) return result.error();
    into = std::move(*result);
    return std::nullopt;
}

std::optional<int> put_on_day(const StringLife& life)
{
    if (!life.string.put_on) return std::nullopt;
    return days_since_epoch(first_day(*life.string.put_on));
}

bool was_on(const StringLife& life, int day)
{
    const auto put_on = put_on_day(life);
    if (put_on && *put_on > day) return false;
    return !life.removal || days_since_epoch(last_day(life.removal->details.removed_on)) >= day;
}

/// Takes out what came after a day: nobody knew it then.
void forget_after(HarpKnowledge& knowledge, int day)
{
    std::erase_if(knowledge.history, [&](const StoredCheck& check) { return day_of(check) > day; });
    std::erase_if(knowledge.visits, [&](const VisitRecord& visit) {
        return days_since_epoch(first_day(visit.visit.visited_on)) > day;
    });
    std::erase_if(knowledge.strings, [&](const StringLife& life) {
        const auto put_on = put_on_day(life);
        return put_on && *put_on > day;
    });
    for (auto& life : knowledge.strings)
        if (life.removal && days_since_epoch(first_day(life.removal->details.removed_on)) > day)
            life.removal.reset();
}

std::vector<LeavingForecast> forecasts_of(const HarpKnowledge& knowledge, int today,
                                          const std::optional<DriftFit>& fit)
{
    return fit ? forecast_harp(*fit, today, knowledge.tolerances) : std::vector<LeavingForecast>{};
}

} // namespace

Result<HarpKnowledge> harp_knowledge(const db::Ledger& ledger, const HarpRecord& harp,
                                     const std::optional<Uuid>& check_id, std::optional<int> until_day)
{
    HarpKnowledge knowledge{.harp = harp};
    for (const auto& problem : {take(tolerances_of(ledger, harp.id), knowledge.tolerances),
                                take(db::step_history(ledger, harp.id), knowledge.history),
                                take(db::visits_of(ledger, harp.id), knowledge.visits),
                                take(db::string_lives(ledger, harp.id), knowledge.strings),
                                take(db::string_plan(ledger, harp.id), knowledge.plan)})
        if (problem) return failure(*problem);
    if (until_day) forget_after(knowledge, *until_day);
    std::optional<Uuid> wanted = check_id;
    if (!wanted && !knowledge.history.empty()) wanted = knowledge.history.back().id;
    if (wanted) {
        auto check = db::check(ledger, *wanted, db::WithPartials::yes);
        if (!check) return failure(check.error());
        if (check->header.harp_id != harp.id)
            return failure(ErrorCode::invalid_argument,
                           "that check belongs to another harp than " + harp.details.name);
        if (until_day && day_of(*check) > *until_day)
            return failure(
                ErrorCode::invalid_argument,
                "that check was made after the day spoken of; leave out the day, or name a later one");
        knowledge.check = std::move(*check);
    }
    if (const auto problem = add_humidities(ledger, knowledge)) return failure(*problem);
    return knowledge;
}

int day_of(const StoredCheck& check)
{
    return days_since_epoch(local_date(check.header.taken));
}

std::vector<StringAge> string_ages(const HarpKnowledge& knowledge, int day)
{
    std::vector<StringAge> ages;
    for (const auto& life : knowledge.strings) {
        const auto put_on = put_on_day(life);
        if (put_on && life.string.put_on->is_full() && was_on(life, day))
            ages.push_back({life.string.place, day - *put_on});
    }
    return ages;
}

OpenLengths open_lengths(const HarpKnowledge& knowledge)
{
    OpenLengths lengths;
    for (const auto& planned : knowledge.plan)
        if (planned.details.length) lengths[planned.details.place] = *planned.details.length;
    return lengths;
}

DriftInput drift_input(const HarpKnowledge& knowledge)
{
    std::map<std::pair<StringPlace, Step>, StepHistory> histories;
    for (const auto& check : knowledge.history) {
        const auto humidity = knowledge.humidity_percent.find(check.id);
        for (const auto& step : check.result.steps) {
            HistoryPoint point{day_of(check), step.error_cents, step.uncertainty_cents, std::nullopt};
            if (humidity != knowledge.humidity_percent.end())
                point.relative_humidity_percent = humidity->second;
            auto& history = histories[{step.place, step.step}];
            history.place = step.place;
            history.step = step.step;
            history.points.push_back(point);
        }
    }
    DriftInput input;
    for (auto& [key, history] : histories) input.histories.push_back(std::move(history));
    for (const auto& visit : knowledge.visits)
        input.events.push_back(
            {HarpEventKind::visit, days_since_epoch(first_day(visit.visit.visited_on)), std::nullopt});
    for (const auto& life : knowledge.strings)
        if (const auto put_on = put_on_day(life))
            input.events.push_back({HarpEventKind::string_change, *put_on, life.string.place});
    return input;
}

HarpEvidence harp_evidence(const HarpKnowledge& knowledge, int today, const std::optional<DriftFit>* fit)
{
    HarpEvidence evidence;
    const auto& layout = knowledge.harp.details.layout;
    for (const auto& string : layout.strings)
        evidence.steps_expected += static_cast<int>(steps_of(layout.kind, string).size());
    if (!knowledge.visits.empty())
        evidence.days_since_visit =
            today - days_since_epoch(first_day(knowledge.visits.back().visit.visited_on));
    if (!knowledge.check) return evidence;
    const auto& result = knowledge.check->result;
    const int check_day = day_of(*knowledge.check);
    evidence.check_age_days = today - check_day;
    evidence.steps = judge_steps(result.steps, result.whole_steps, knowledge.tolerances);
    evidence.causes = find_causes(layout, result.steps, result.whole_steps);
    evidence.conditions = find_string_conditions(layout, result.readings, string_ages(knowledge, check_day));
    if (fit != nullptr) {
        evidence.forecasts = forecasts_of(knowledge, today, *fit);
    } else {
        const auto input = drift_input(knowledge);
        evidence.forecasts = forecasts_of(knowledge, today, fit_drift(input.histories, input.events));
    }
    return evidence;
}

} // namespace harpkeep::ui
