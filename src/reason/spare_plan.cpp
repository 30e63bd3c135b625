// SPDX-License-Identifier: MIT
#include "reason/spare_plan.hpp"

#include "base/expects.hpp"
#include "reason/spare_need.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

/// Chance in each scenario that every kind is covered by its stock.
std::vector<double> all_covered(const SpareNeed& need, const std::vector<int>& stock)
{
    std::vector<double> covered(need.counts.size(), 1.0);
    for (std::size_t s = 0; s < covered.size(); ++s)
        for (std::size_t k = 0; k < stock.size(); ++k) covered[s] *= need.covered(s, k, stock[k]);
    return covered;
}

stats::Estimate missing(std::vector<double> covered, double confidence)
{
    for (auto& chance : covered) chance = std::max(0.0, 1.0 - chance);
    return stats::estimate_from(std::move(covered), confidence);
}

double mean(const std::vector<double>& values)
{
    double sum = 0.0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

/// What one string more of each kind costs for the purpose of choosing: its price when all prices are known
/// in one currency, else 1 for all.
std::vector<double> price_weights(const std::vector<SpareLine>& lines)
{
    std::vector<double> weights;
    for (const auto& line : lines) {
        const auto& kind = line.kind;
        const bool usable = kind.unit_price_minor_units && *kind.unit_price_minor_units > 0 &&
                            kind.currency == lines.front().kind.currency;
        if (!usable) return std::vector<double>(lines.size(), 1.0);
        weights.push_back(static_cast<double>(*kind.unit_price_minor_units));
    }
    return weights;
}

/// One string after the other to the kind where it helps most for its price, until all together are covered.
std::vector<int> stock_for_all(const SpareNeed& need, std::vector<int> stock, double miss_chance,
                               const std::vector<double>& prices)
{
    auto covered = all_covered(need, stock);
    // How one string more of a kind raises the chance in each scenario; changes with the stock of that kind
    // only.
    const auto raise_by_one = [&](std::size_t k) {
        std::vector<double> raise(covered.size(), 1.0);
        for (std::size_t s = 0; s < raise.size(); ++s) {
            const double now = need.covered(s, k, stock[k]);
            if (now > 0.0) raise[s] = need.covered(s, k, stock[k] + 1) / now;
        }
        return raise;
    };
    std::vector<std::vector<double>> raises;
    for (std::size_t k = 0; k < stock.size(); ++k) raises.push_back(raise_by_one(k));
    constexpr int most_orders =
        100000; // longer than any order list; a level below rounding would never be met
    for (int order = 0; order < most_orders && 1.0 - mean(covered) > miss_chance; ++order) {
        std::size_t best = 0;
        double best_gain = -1.0;
        std::vector<double> best_covered;
        for (std::size_t k = 0; k < stock.size(); ++k) {
            auto with = covered;
            for (std::size_t s = 0; s < with.size(); ++s) with[s] *= raises[k][s];
            const double gain = std::log(mean(with) / mean(covered)) / prices[k];
            if (gain <= best_gain) continue;
            best_gain = gain;
            best = k;
            best_covered = std::move(with);
        }
        if (best_gain <= 0.0) break; // nothing left that a string could help
        ++stock[best];
        raises[best] = raise_by_one(best);
        covered = std::move(best_covered);
    }
    return stock;
}

/// Whether least_cost can weigh this kind.
bool can_weigh(const SpareKind& kind, const SpareSettings& settings)
{
    return kind.unit_price_minor_units && *kind.unit_price_minor_units > 0 &&
           kind.currency == settings.currency;
}

int stock_for_kind(const stats::CountDistribution& counts, const SpareKind& kind,
                   const SpareSettings& settings)
{
    if (settings.rule == SpareRule::each_kind)
        return stats::smallest_stock(counts, 1.0 - settings.miss_chance);
    if (!can_weigh(kind, settings)) return kind.in_stock;
    const double over = settings.loss_when_left_over * static_cast<double>(*kind.unit_price_minor_units);
    return stats::newsvendor_stock(counts, settings.cost_of_missing_minor_units, over);
}

/// The kinds given, then those of strings in use that have no stock line.
std::vector<SpareLine> lines_of(const LifeModel& model, std::span<const StringInUse> strings,
                                std::span<const SpareKind> kinds)
{
    std::vector<SpareLine> lines;
    for (const auto& kind : kinds) lines.push_back({.kind = kind});
    for (const auto& string : strings) {
        auto found = std::find_if(lines.begin(), lines.end(),
                                  [&](const SpareLine& line) { return line.kind.name == string.kind; });
        if (found == lines.end()) {
            lines.push_back({.kind = {.name = string.kind}});
            found = std::prev(lines.end());
        }
        ++found->strings_in_use;
        if (model.group_of(string) == model.lives.unseen()) found->group_never_watched = true;
    }
    return lines;
}

std::vector<int> wanted_stock(const SpareNeed& need, const std::vector<SpareLine>& lines,
                              const SpareSettings& settings)
{
    std::vector<int> stock;
    for (const auto& line : lines) stock.push_back(line.kind.in_stock);
    if (settings.rule == SpareRule::all_together)
        return lines.empty() ? stock : stock_for_all(need, stock, settings.miss_chance, price_weights(lines));
    for (std::size_t k = 0; k < lines.size(); ++k)
        stock[k] = stock_for_kind(need.mixed(k), lines[k].kind, settings);
    return stock;
}

void fill_line(SpareLine& line, const SpareNeed& need, std::size_t kind, int wanted, double confidence)
{
    line.wanted = wanted;
    line.to_order = std::max(0, wanted - line.kind.in_stock);
    if (line.kind.unit_price_minor_units)
        line.cost_minor_units = *line.kind.unit_price_minor_units * line.to_order;
    std::vector<double> breaks, covered, covered_after;
    for (std::size_t s = 0; s < need.counts.size(); ++s) {
        breaks.push_back(stats::mean_count(need.counts[s][kind]));
        covered.push_back(need.covered(s, kind, line.kind.in_stock));
        covered_after.push_back(need.covered(s, kind, line.kind.in_stock + line.to_order));
    }
    line.expected_breaks = stats::estimate_from(std::move(breaks), confidence);
    line.chance_missing_now = missing(std::move(covered), confidence);
    line.chance_missing_after = missing(std::move(covered_after), confidence).value;
}

void add_totals(SparePlan& plan)
{
    for (const auto& line : plan.lines) {
        if (line.to_order == 0) continue;
        if (!line.cost_minor_units) {
            plan.unpriced_orders += line.to_order;
            continue;
        }
        const auto found = std::find_if(plan.totals.begin(), plan.totals.end(), [&](const OrderTotal& total) {
            return total.currency == line.kind.currency;
        });
        if (found == plan.totals.end())
            plan.totals.push_back({line.kind.currency, *line.cost_minor_units});
        else
            found->minor_units += *line.cost_minor_units;
    }
}

std::string csv_field(const std::string& text)
{
    // A name that a spreadsheet would take for a formula is kept as text.
    std::string safe = !text.empty() && std::string_view{"=+-@"}.find(text.front()) != std::string_view::npos
                           ? "'" + text
                           : text;
    if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
    std::string quoted = "\"";
    for (const char c : safe) quoted += c == '"' ? std::string{"\"\""} : std::string{c};
    return quoted + "\"";
}

} // namespace

SparePlan plan_spares(const LifeModel& model, std::span<const StringInUse> strings,
                      std::span<const SpareKind> kinds, double days, const SpareSettings& settings)
{
    HARPKEEP_EXPECTS(settings.miss_chance > 0.0 && settings.miss_chance < 1.0);
    HARPKEEP_EXPECTS(settings.cost_of_missing_minor_units > 0.0 && settings.loss_when_left_over > 0.0);
    SparePlan plan{.days = days, .rule = settings.rule, .level = settings.miss_chance};
    plan.lines = lines_of(model, strings, kinds);
    plan.evidence = model.lives.total;
    std::vector<std::string> names;
    for (const auto& line : plan.lines) names.push_back(line.kind.name);
    const auto need = spare_need(model, strings, std::move(names), days, settings.scenarios);

    const auto wanted = wanted_stock(need, plan.lines, settings);
    std::vector<int> now, after;
    for (std::size_t k = 0; k < plan.lines.size(); ++k) {
        fill_line(plan.lines[k], need, k, wanted[k], settings.confidence);
        plan.lines[k].not_weighed =
            settings.rule == SpareRule::least_cost && !can_weigh(plan.lines[k].kind, settings);
        now.push_back(plan.lines[k].kind.in_stock);
        after.push_back(now.back() + plan.lines[k].to_order);
    }
    plan.any_missing_now = missing(all_covered(need, now), settings.confidence);
    plan.any_missing_after = missing(all_covered(need, after), settings.confidence);
    add_totals(plan);
    return plan;
}

std::string order_csv(const SparePlan& plan)
{
    std::string csv =
        "kind,to_order,unit_price_minor_units,cost_minor_units,currency,in_stock,strings_in_use,"
        "expected_breaks,chance_missing_now,chance_missing_after\r\n";
    const auto amount = [](const std::optional<std::int64_t>& minor) {
        return minor ? std::to_string(*minor) : std::string{};
    };
    for (const auto& line : plan.lines) {
        if (line.to_order == 0) continue;
        csv += fmt::format("{},{},{},{},{},{},{},{:.3f},{:.4f},{:.4f}\r\n", csv_field(line.kind.name),
                           line.to_order, amount(line.kind.unit_price_minor_units),
                           amount(line.cost_minor_units), csv_field(line.kind.currency), line.kind.in_stock,
                           line.strings_in_use, line.expected_breaks.value, line.chance_missing_now.value,
                           line.chance_missing_after);
    }
    return csv;
}

std::vector<StringPlace> skeleton_set()
{
    std::vector<StringPlace> places;
    for (int index = StringPlace{Letter::E, 7}.diatonic_index();
         index >= StringPlace{Letter::F, 4}.diatonic_index(); --index)
        places.push_back(place_from_diatonic_index(index)); // 1E down to 3F
    for (const auto* name : {"4F", "4C", "4A", "4D", "5C", "5D"})
        places.push_back(*place_from_harp_name(name));
    return places;
}

} // namespace harpkeep
