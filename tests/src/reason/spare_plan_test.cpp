// SPDX-License-Identifier: MIT
#include "reason/spare_plan.hpp"

#include "reason/spare_need.hpp"
#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace harpkeep;

namespace {

const synthetic::School& school()
{
    static const auto drawn = [] {
        std::mt19937_64 random{81};
        return synthetic::draw_school(random, {.harps = 3, .years = 5});
    }();
    return drawn;
}

const LifeModel& model()
{
    static const auto learnt = learn_lives(school().observed).value();
    return learnt;
}

/// A model in which everything is known: every string of every group lives by this law.
LifeModel certain(const stats::WeibullLife& life)
{
    LifeModel known{.grouping = LifeGrouping::school, .groups = {"all strings"}, .lives = {}};
    known.lives.evidence = {{1, 1, 1.0}};
    known.lives.total = {1, 1, 1.0};
    for (int i = 0; i < 10; ++i)
        known.lives.scenarios.push_back({.shape = life.shape, .scales = {life.scale, life.scale}});
    return known;
}

StringInUse string_of(const char* kind, double age_days)
{
    return {.harp = "Heron", .place = {Letter::C, 5}, .material = "gut", .age_days = age_days, .kind = kind};
}

const SpareLine& line_of(const SparePlan& plan, const std::string& kind)
{
    for (const auto& line : plan.lines)
        if (line.kind.name == kind) return line;
    FAIL("no line " << kind);
    return plan.lines.front();
}

} // namespace

// UMass cumulative Poisson table: P(X <= 2) = .9197, P(X <= 3) = .9810 at mean 1; smallest stock for 95 %
// is 3.
TEST_CASE("plan_spares: accidents of constant rate follow the Poisson table", "[reason][reference]")
{
    const auto model = certain({1.0, 400.0});
    const std::vector strings{string_of("3C gut", 10), string_of("3C gut", 500), string_of("3C gut", 900),
                              string_of("3C gut", 0)};
    for (const auto& [stock, chance] : {std::pair{2, .9197}, std::pair{3, .9810}}) {
        const auto plan = plan_spares(model, strings, std::vector<SpareKind>{{"3C gut", stock}}, 100.0,
                                      {.rule = SpareRule::each_kind});
        CHECK(plan.lines[0].chance_missing_now.value ==
              Approx(1.0 - chance).margin(1.5e-4)); // table and time grid
        CHECK(plan.lines[0].wanted == 3);
        CHECK(plan.lines[0].expected_breaks.value == Approx(1.0).epsilon(1e-3)); // time grid
        CHECK(plan.lines[0].strings_in_use == 4);
    }
}

TEST_CASE("plan_spares: short times reduce to the Poisson-binomial", "[reason][twin]")
{
    const stats::WeibullLife life{2.0, 400.0};
    std::vector<StringInUse> strings;
    std::vector<double> chances;
    for (const double age : {30.0, 300.0, 800.0, 1500.0}) {
        strings.push_back(string_of("2A gut", age));
        chances.push_back(stats::weibull_failure_within(life, age, 20.0));
    }
    const auto need = spare_need(certain(life), strings, {"2A gut"}, 20.0, 1);
    const auto direct = stats::poisson_binomial(chances);
    for (std::size_t n = 0; n < 3; ++n)
        CHECK(need.counts[0][0][n] == Approx(direct[n]).margin(5e-4)); // second breaks of new strings: 0.1 %
}

TEST_CASE("plan_spares: chances agree with simulated years", "[reason][twin]")
{
    const stats::WeibullLife life{1.6, 500.0};
    const std::vector strings{string_of("a", 100), string_of("a", 700), string_of("b", 300)};
    const std::vector<SpareKind> kinds{{"a", 1}, {"b", 1}};
    const auto plan = plan_spares(certain(life), strings, kinds, 365.0);
    std::mt19937_64 random{82};
    constexpr int years = 100000;
    int missing_a = 0, missing_any = 0;
    for (int year = 0; year < years; ++year) {
        const int a = synthetic::draw_breaks(random, 1.6, 500, 100, 365) +
                      synthetic::draw_breaks(random, 1.6, 500, 700, 365);
        const int b = synthetic::draw_breaks(random, 1.6, 500, 300, 365);
        missing_a += a > 1;
        missing_any += a > 1 || b > 1;
    }
    const double four_errors = 4.0 * 0.5 / std::sqrt(years);
    CHECK(line_of(plan, "a").chance_missing_now.value ==
          Approx(missing_a / double(years)).margin(four_errors));
    CHECK(plan.any_missing_now.value == Approx(missing_any / double(years)).margin(four_errors));
}

TEST_CASE("plan_spares: the order keeps its promise and no string of it is idle", "[reason][property]")
{
    const auto plan = plan_spares(model(), school().in_use, {}, 120.0);
    CHECK(plan.lines.size() == 47); // one kind for each place, pooled over three harps
    CHECK(plan.any_missing_now.value > 0.5);
    CHECK(plan.any_missing_after.value <= 0.05);
    int ordered = 0;
    for (const auto& line : plan.lines) ordered += line.to_order;
    CHECK(plan.unpriced_orders == ordered);
    // one less of the last kinds and the promise would be broken: look at any single one
    std::vector<SpareKind> kinds;
    for (const auto& line : plan.lines) kinds.push_back({line.kind.name, line.to_order});
    int would_break = 0;
    for (auto& kind : kinds) {
        if (kind.in_stock == 0) continue;
        --kind.in_stock;
        const auto less = plan_spares(model(), school().in_use, kinds, 120.0);
        would_break += less.any_missing_now.value > 0.05;
        ++kind.in_stock;
        if (would_break > 0) break;
    }
    CHECK(would_break == 1);
}

TEST_CASE("plan_spares: a stricter level and a longer time never want less", "[reason][property]")
{
    const auto total = [](double days, double level, SpareRule rule) {
        int sum = 0;
        for (const auto& line :
             plan_spares(model(), school().in_use, {}, days, {.rule = rule, .miss_chance = level}).lines)
            sum += line.wanted;
        return sum;
    };
    for (const auto rule : {SpareRule::all_together, SpareRule::each_kind}) {
        CHECK(total(120, 0.01, rule) >= total(120, 0.05, rule));
        CHECK(total(240, 0.05, rule) >= total(120, 0.05, rule));
    }
}

TEST_CASE("plan_spares: pooling a school needs less than every harp by itself", "[reason][property]")
{
    int pooled = 0, apart = 0;
    const SpareSettings each{.rule = SpareRule::each_kind};
    for (const auto& line : plan_spares(model(), school().in_use, {}, 120.0, each).lines)
        pooled += line.wanted;
    auto own = school().in_use;
    for (auto& string : own) string.kind = string.harp + " " + string.kind;
    for (const auto& line : plan_spares(model(), own, {}, 120.0, each).lines) apart += line.wanted;
    CHECK(pooled < apart);
}

TEST_CASE("plan_spares: newsvendor weighs price against what a missing string costs", "[reason]")
{
    const auto model = certain({1.0, 100.0}); // mean 1 in 100 days
    const std::vector strings{string_of("3C gut", 10)};
    const auto wanted = [&](std::int64_t price) {
        const SpareKind kind{
            .name = "3C gut", .in_stock = 0, .unit_price_minor_units = price, .currency = "EUR"};
        return plan_spares(model, strings, std::vector{kind}, 100.0, {.rule = SpareRule::least_cost})
            .lines[0];
    };
    // short 50.00, over a fifth of 10.00: 25/26 = 0.9615; the Poisson table gives P(<= 3) = .9810, P(<= 2) =
    // .9197
    CHECK(wanted(1000).wanted == 3);
    CHECK(wanted(1000).cost_minor_units == 3000);
    CHECK(wanted(100000).wanted == 0); // 0.2 below P(0) = .3679
    const auto unpriced = plan_spares(model, strings, std::vector<SpareKind>{{"3C gut", 1}}, 100.0,
                                      {.rule = SpareRule::least_cost});
    CHECK(unpriced.lines[0].not_weighed);
    CHECK(unpriced.lines[0].to_order == 0);
}

TEST_CASE("plan_spares: cheap strings are preferred for the common promise", "[reason]")
{
    const auto model = certain({1.2, 500.0});
    const std::vector strings{string_of("cheap", 10), string_of("dear", 10)};
    const auto order = [&](std::int64_t cheap, std::int64_t dear) {
        const std::vector<SpareKind> kinds{{"cheap", 0, cheap, "EUR"}, {"dear", 0, dear, "EUR"}};
        return plan_spares(model, strings, kinds, 200.0, {.miss_chance = 0.35});
    };
    CHECK(line_of(order(100, 2000), "cheap").to_order > line_of(order(100, 2000), "dear").to_order);
    CHECK(line_of(order(2000, 100), "cheap").to_order < line_of(order(2000, 100), "dear").to_order);
    CHECK(order(100, 2000).totals.size() == 1);
    CHECK(order(100, 2000).totals[0].currency == "EUR");
}

TEST_CASE("order_csv: quotes, guards and leaves out what is not ordered", "[reason]")
{
    const auto model = certain({1.0, 50.0});
    const std::vector strings{string_of("5F, \"wire\"", 10), string_of("=SUM(1)", 10),
                              string_of("enough", 10)};
    const std::vector<SpareKind> kinds{{"5F, \"wire\"", 0, 1234, "EUR"}, {"=SUM(1)", 0}, {"enough", 500}};
    const auto csv = order_csv(plan_spares(model, strings, kinds, 100.0));
    CHECK(csv.find("\r\n\"5F, \"\"wire\"\"\",") != std::string::npos);
    CHECK(csv.find("\r\n'=SUM(1),") != std::string::npos);
    CHECK(csv.find("enough") == std::string::npos);
    CHECK(csv.find(",1234,") != std::string::npos);
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 3);
}

// "What is a skeleton set of strings?" (page title): octaves 1 to 3 complete, then 4F 4C 4A 4D, 5C 5D.
TEST_CASE("skeleton_set: three octaves and six", "[reason][reference]")
{
    const auto places = skeleton_set();
    CHECK(places.size() == 21 + 6);
    CHECK(harp_name(places.front()) == "1E");
    CHECK(harp_name(places[20]) == "3F");
    CHECK(harp_name(places.back()) == "5D");
}
