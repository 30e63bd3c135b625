// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_risk.hpp"
#include "stats/demand.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// Strings of one kind can replace one another, on whatever harp.
struct SpareKind {
    std::string name;
    int in_stock = 0;
    std::optional<std::int64_t> unit_price_minor_units; ///< nothing: unknown
    std::string currency;                               ///< ISO 4217; empty when the price is unknown
};

/// What "enough" means.
enum class SpareRule {
    all_together, ///< the chance that any string at all is missing stays under the level
    each_kind,    ///< the chance that a string of this kind is missing stays under the level, kind by kind
    least_cost,   ///< newsvendor: as many as pay for themselves
};

struct SpareSettings {
    SpareRule rule = SpareRule::all_together;
    double miss_chance = 0.05; ///< the level, 0 < level < 1
    double confidence = 0.95;
    /// least_cost only: what a missing string costs, in smallest units of `currency`, and which part of its
    /// price a string loses when it is left over (it ages, it ties up money). Both are the project's own
    /// choice.
    double cost_of_missing_minor_units = 5000.0;
    std::string currency = "EUR";
    double loss_when_left_over = 0.2;
    int scenarios = 250; ///< of the model's, evenly picked
};

/// What to have of one kind.
struct SpareLine {
    SpareKind kind;
    int strings_in_use = 0;
    stats::Estimate expected_breaks;    ///< until the date, replaced strings that break again included
    int wanted = 0;                     ///< stock to start with; what is there already counts
    int to_order = 0;                   ///< wanted less what is there, never below 0
    stats::Estimate chance_missing_now; ///< that more break than are in stock
    double chance_missing_after = 0.0;  ///< with the order
    std::optional<std::int64_t> cost_minor_units; ///< of the order; nothing when the price is unknown
    /// least_cost only: without a price in the right currency there is nothing to weigh; the stock stays as
    /// it is
    bool not_weighed = false;
    bool group_never_watched = false; ///< some of its strings belong to a group without any evidence
};

/// Cost of an order in one currency; prices in different currencies are not added up.
struct OrderTotal {
    std::string currency;
    std::int64_t minor_units = 0;
};

/// Spares to carry until a date.
struct SparePlan {
    double days = 0.0;
    SpareRule rule = SpareRule::all_together;
    double level = 0.05;
    std::vector<SpareLine>
        lines; ///< in the order of the kinds given; kinds of strings in use without stock after
    stats::Estimate any_missing_now; ///< that at least one string will be missing
    stats::Estimate any_missing_after;
    std::vector<OrderTotal> totals;
    int unpriced_orders = 0; ///< strings in the order whose price is unknown
    stats::LifeEvidence evidence;
};

/// Stock so that the chance of missing a string until a date stays under a level.
///
/// Given      strings in use on all harps, each with its kind; stock and price of the kinds; days > 0
/// Notes      Each string place breaks a number of times: its present string at its age first, then new ones
///            (renewal). Counts of a kind add up; what is unknown about lives is shared by all (scenarios of
///            the model), so kinds run out together rather than by turns. For all_together one string after
///            the other goes to the kind where it lowers the chance of missing any most, for its price where
///            all prices are known in one currency.
/// Accuracy   against simulated years within their scatter (tests/src/reason/spare_plan_test.cpp)
[[nodiscard]] SparePlan plan_spares(const LifeModel& model, std::span<const StringInUse> strings,
                                    std::span<const SpareKind> kinds, double days,
                                    const SpareSettings& settings = {});

/// The order list as CSV (RFC 4180): kind, to order, price and cost in smallest units, currency, in stock,
/// expected breaks, chance of missing before and after. Only kinds that are to be ordered.
[[nodiscard]] std::string order_csv(const SparePlan& plan);

/// Places of a skeleton set of spares, for a ledger too young to reckon from: harp octaves 1 to 3 complete,
/// then 4F 4C 4A 4D and 5C 5D ("What is a skeleton set of strings?", page title).
[[nodiscard]] std::vector<StringPlace> skeleton_set();

} // namespace harpkeep
