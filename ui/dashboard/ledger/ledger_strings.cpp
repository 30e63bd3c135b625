// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_strings.hpp"

#include "base/expects.hpp"
#include "reason/break_clusters.hpp"
#include "reason/life_study.hpp"
#include "reason/life_text.hpp"
#include "reason/spare_plan.hpp"
#include "stats/kaplan_meier.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr int settling_days = 14;       // "about two weeks" (common practice)
constexpr double watched_chance = 0.15; // own choice: worth a look before a concert

int days_between(Date from, Date to)
{
    return days_since_epoch(to) - days_since_epoch(from);
}

StringInUse in_use(const StringLife& life, const std::string& harp, Date today)
{
    StringInUse out{.harp = harp, .place = life.string.place, .material = life.string.make.material};
    if (life.string.put_on) out.age_days = std::max(0, days_between(*life.string.put_on, today));
    const auto since = life.string.watched_from ? life.string.watched_from : life.string.put_on;
    if (since) out.watched_days = std::max(0, days_between(*since, today));
    out.kind = spare_name(life.string.place, life.string.make);
    return out;
}

std::string harp_name_of(const Lives& lives, const Uuid& id)
{
    const auto found = lives.harp_names.find(id);
    return found == lives.harp_names.end() ? std::string{} : found->second;
}

void add_rows(StringsModel& model, const StringsFacts& facts, const Lives& lives)
{
    for (const auto& string : facts.harp.details.layout.strings) {
        StringRow row{.place = string.place};
        const auto planned = std::find_if(facts.plan.begin(), facts.plan.end(),
                                          [&](const auto& p) { return p.details.place == string.place; });
        const auto on = std::find_if(facts.on.begin(), facts.on.end(),
                                     [&](const auto& life) { return life.string.place == string.place; });
        const StringMake* make = on != facts.on.end()          ? &on->string.make
                                 : planned != facts.plan.end() ? &planned->details.make
                                                               : nullptr;
        if (make != nullptr) {
            row.material = make->material;
            row.gauge_mm = make->diameter.value_or(Millimetres{}).value();
        }
        if (on != facts.on.end() && on->string.put_on) {
            row.put_on = day_of(*on->string.put_on);
            row.put_on_about = !on->string.put_on->is_full();
            row.age_days = std::max(0, days_between(*on->string.put_on, facts.today));
            if (row.age_days < settling_days)
                row.note = fmt::format(text::settling_note_format, age_text(row.age_days));
        }
        if (on == facts.on.end()) {
            // Only a place whose string came off is without one; places never written about are left alone.
            const auto last =
                std::find_if(facts.of_harp.rbegin(), facts.of_harp.rend(),
                             [&](const auto& life) { return life.string.place == string.place; });
            row.broken = last != facts.of_harp.rend() && last->removal.has_value();
            if (row.broken && last->removal->details.reason == RemovalReason::broke)
                row.note = fmt::format(text::broke_on_format, date_text(last->removal->details.removed_on));
            row.state = row.broken ? State::out : State::not_measured;
        }
        for (const auto& stock : facts.stock)
            if (stock.place == string.place && (!stock.harp_id || *stock.harp_id == facts.harp.id))
                row.in_stock += stock.count;
        model.rows.push_back(std::move(row));
    }
    if (!lives.model) return;
    std::vector<StringInUse> strings;
    for (const auto& life : facts.on) strings.push_back(in_use(life, facts.harp.details.name, facts.today));
    if (strings.empty()) return;
    const auto report = break_risks(*lives.model, strings, model.horizon_days);
    for (const auto& risk : report.strings)
        for (auto& row : model.rows) {
            if (row.place != risk.string.place) continue;
            row.risk = risk.chance.value;
            row.risk_low = risk.chance.limits.lower;
            row.risk_high = risk.chance.limits.upper;
            row.state = risk.chance.value >= watched_chance ? State::watch : State::fine;
        }
}

std::vector<LifePoint> fitted_curve(const LifeModel& model, std::size_t group, double years)
{
    std::vector<LifePoint> points{{0.0, 1.0, 1.0, 1.0}};
    for (int i = 1; i <= 40; ++i) {
        const double at = years * i / 40.0;
        const auto failed = stats::pooled_failure_within(model.lives, group, 0.0, at * days_per_year);
        points.push_back({at, 1.0 - failed.value, 1.0 - failed.limits.upper, 1.0 - failed.limits.lower});
    }
    return points;
}

/// As study_lives() (reason/life_study.hpp) has them, without each group's own fits, which the page does not
/// show.
std::vector<LifeCurve> curves_of(const Lives& lives)
{
    std::vector<LifeCurve> curves;
    for (const LifeGroup& group : grouped(lives.observed, LifeStudySettings{}.grouping)) {
        const auto evidence = stats::evidence_of(group.lives);
        if (evidence.failures < 2) continue;
        LifeCurve curve{group.name, {{0.0, 1.0, 1.0, 1.0}}, {}, evidence.failures, evidence.observations, ""};
        for (const auto& step : stats::kaplan_meier(group.lives).steps) {
            const auto limits = stats::survival_limits(step);
            curve.counted.push_back({step.time / days_per_year, step.survival, limits ? limits->lower : 0.0,
                                     limits ? limits->upper : 1.0});
        }
        if (lives.model) {
            const auto& names = lives.model->groups;
            const auto found = std::find(names.begin(), names.end(), group.name);
            HARPKEEP_EXPECTS(found != names.end()); // the model is learnt from the same strings
            const auto index = static_cast<std::size_t>(found - names.begin());
            const auto median = stats::pooled_quantile(lives.model->lives, index, 0.5);
            curve.summary = fmt::format(text::life_summary_format, age_text(median.value),
                                        age_text(median.limits.lower), age_text(median.limits.upper));
            curve.fitted = fitted_curve(*lives.model, index, std::max(curve.counted.back().years * 1.5, 1.0));
        }
        curves.push_back(std::move(curve));
    }
    return curves;
}

std::vector<SpareKind> kinds_of(const SchoolFacts& facts)
{
    std::map<std::string, SpareKind> kinds;
    for (const auto& stock : facts.stock) {
        auto& kind = kinds[spare_name(stock.place, stock.make)];
        kind.in_stock += stock.count;
    }
    for (const auto& movement : facts.movements) {
        const auto& details = movement.details;
        auto& kind = kinds[spare_name(details.place, details.make)];
        if (details.cause == SpareCause::bought && details.cost && details.change > 0) {
            kind.unit_price_minor_units =
                details.cost->minor_units / details.change; // the youngest price stands
            kind.currency = details.cost->currency;
        }
    }
    std::vector<SpareKind> out;
    for (auto& [name, kind] : kinds) {
        kind.name = name;
        out.push_back(kind);
    }
    return out;
}

void add_stock(SchoolStrings& model, const SchoolFacts& facts, const Lives& lives, int horizon_days)
{
    const auto kinds = kinds_of(facts);
    const auto price = [](const SpareKind& kind) {
        return kind.unit_price_minor_units ? money_text({*kind.unit_price_minor_units, kind.currency})
                                           : std::string{};
    };
    std::vector<StringInUse> school;
    for (const auto& life : facts.on)
        school.push_back(in_use(life, harp_name_of(lives, life.string.harp_id), facts.today));
    if (!lives.model || school.empty()) {
        for (const auto& kind : kinds)
            model.stock.push_back({kind.name, kind.in_stock, 0, 0, price(kind), ""});
        return;
    }
    const auto plan =
        plan_spares(*lives.model, school, kinds, horizon_days, {.miss_chance = StringsModel{}.miss_chance});
    for (const auto& line : plan.lines) {
        if (line.wanted == 0 && line.kind.in_stock == 0) continue;
        model.stock.push_back({line.kind.name, line.kind.in_stock, line.wanted, line.to_order,
                               price(line.kind),
                               line.cost_minor_units && line.to_order > 0
                                   ? money_text({*line.cost_minor_units, line.kind.currency})
                                   : std::string{}});
    }
    for (const auto& total : plan.totals)
        model.order_total +=
            (model.order_total.empty() ? "" : " + ") + money_text({total.minor_units, total.currency});
}

void add_advice(StringsModel& model, const StringsFacts& facts, const Lives& lives)
{
    if (!lives.model) {
        if (!facts.of_harp.empty()) model.advice.push_back({text::no_lives, "", State::unsure});
        return;
    }
    for (const auto& cluster : lives.clusters.clusters) {
        if (!cluster.beyond_chance || cluster.harp != facts.harp.details.name) continue;
        ClusterReport one{lives.clusters.key, lives.clusters.looked_at, {cluster}, lives.clusters.level};
        for (const auto& sentence : cluster_sentences(one))
            model.advice.push_back({sentence, "", State::out});
    }
}

} // namespace

std::string spare_name(StringPlace place, const StringMake& make)
{
    return fmt::format("{} {}", harp_name(place), make_text(make));
}

Lives learn_from(const std::vector<StringLife>& all, std::map<Uuid, std::string> harp_names, Date today)
{
    Lives lives;
    lives.harp_names = std::move(harp_names);
    for (const auto& life : all) {
        if (!life.string.put_on) continue; // its age was never known
        ObservedString out{.harp = harp_name_of(lives, life.string.harp_id),
                           .place = life.string.place,
                           .material = life.string.make.material};
        if (life.string.watched_from)
            out.age_at_entry_days = std::max(0, days_between(*life.string.put_on, *life.string.watched_from));
        const Date end = life.removal ? life.removal->details.removed_on : today;
        out.age_at_exit_days = days_between(*life.string.put_on, end);
        out.broke = life.removal && life.removal->details.reason == RemovalReason::broke;
        if (life.removal && life.removal->details.broke_at)
            out.broke_at = break_point_name(*life.removal->details.broke_at);
        if (out.age_at_exit_days <= out.age_at_entry_days) continue; // not watched for a day
        lives.observed.push_back(std::move(out));
    }
    auto model = learn_lives(lives.observed);
    if (model) lives.model = std::move(*model);
    if (lives.model) lives.clusters = find_break_clusters(*lives.model, lives.observed);
    return lives;
}

SchoolStrings school_strings_from(const SchoolFacts& facts, const Lives& lives, int horizon_days)
{
    SchoolStrings school;
    school.curves = curves_of(lives);
    add_stock(school, facts, lives, horizon_days);
    return school;
}

StringsModel strings_from(const StringsFacts& facts, const Lives& lives, const SchoolStrings& school,
                          int horizon_days)
{
    StringsModel model;
    model.kind = facts.harp.details.layout.kind;
    model.horizon_days = horizon_days;
    add_rows(model, facts, lives);
    model.curves = school.curves;
    model.stock = school.stock;
    model.order_total = school.order_total;
    add_advice(model, facts, lives);
    return model;
}

} // namespace harpkeep::dashboard
