// SPDX-License-Identifier: MIT
#include "reason/conformity.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace harpkeep;

// JCGM 106:2012, precision resistors with a binary decision rule: prior N(1500, 0.12), tolerance 1499.8 to
// 1500.2, acceptance 1499.82 to 1500.18, measuring 0.04 ohm; it states about 1 % and 7 % (from memory); the
// further digits are exact arithmetic.
TEST_CASE("conformity: global risks of the precision resistors", "[reason][reference]")
{
    const auto risks = conformity_risks({1500.0, 0.12}, {1499.8, 1500.2}, {1499.82, 1500.18}, 0.04);
    CHECK(risks.conforming_share == Approx(0.9044).margin(5e-5)); // last digit
    CHECK(risks.consumers_risk == Approx(0.0099).margin(5e-5));   // last digit
    CHECK(risks.producers_risk == Approx(0.0690).margin(5e-5));   // last digit
}

// JCGM 106:2012, breakdown voltage of a Zener diode (from memory): limit -5.40 V, measured -5.47 V, u 0.05 V.
TEST_CASE("conformity: the Zener diode conforms with probability 0.92", "[reason][reference]")
{
    const ToleranceBand tolerance{.upper = -5.40};
    CHECK(conformance_probability({-5.47, 0.05}, tolerance) == Approx(0.9192).margin(5e-5)); // last digit
}

namespace {

struct CentsRow {
    double cents, probability;
};

} // namespace

// Exact arithmetic on the normal distribution: tolerance 5 cents either side, u = 0.5 cent.
TEST_CASE("conformity: a step of a harp against five cents", "[reason][reference]")
{
    const ToleranceBand tolerance{-5.0, 5.0};
    const auto row = GENERATE(CentsRow{3.9, .986097}, CentsRow{4.2, .945201}, CentsRow{5.0, .5},
                              CentsRow{5.8, .054799}, CentsRow{5.9, .035930});
    CAPTURE(row.cents);
    CHECK(conformance_probability({row.cents, 0.5}, tolerance) ==
          Approx(row.probability).margin(5e-7)); // last digit
    CHECK(conformance_probability({-row.cents, 0.5}, tolerance) ==
          Approx(row.probability).margin(5e-7)); // last digit
}

TEST_CASE("conformity: the guard band of 1.645 u accepts up to 4.1776 cents", "[reason][reference]")
{
    const ToleranceBand tolerance{-5.0, 5.0};
    CHECK(decide({4.1775, 0.5}, tolerance) == Conformity::within);
    CHECK(decide({4.1777, 0.5}, tolerance) == Conformity::not_proven);
    CHECK(decide({-4.1775, 0.5}, tolerance) == Conformity::within);
    CHECK(decide({5.8223, 0.5}, tolerance) == Conformity::not_proven);
    CHECK(decide({5.8225, 0.5}, tolerance) == Conformity::out);
    CHECK(decide({-5.8225, 0.5}, tolerance) == Conformity::out);
}

// ILAC-G8:09/2019 section 4: guard band of the expanded uncertainty, two u.
TEST_CASE("conformity: the guard band of two u accepts up to 4 and rejects from 6 cents",
          "[reason][reference]")
{
    const ToleranceBand tolerance{-5.0, 5.0};
    const DecisionRule two_u{.confidence = 0.977249868051821}; // Phi(2)
    CHECK(decide({3.9999, 0.5}, tolerance, two_u) == Conformity::within);
    CHECK(decide({4.0001, 0.5}, tolerance, two_u) == Conformity::not_proven);
    CHECK(decide({5.9999, 0.5}, tolerance, two_u) == Conformity::not_proven);
    CHECK(decide({6.0001, 0.5}, tolerance, two_u) == Conformity::out);
}

// A page on decision rules and guard banding: micrometer, limit 3 um, expanded uncertainty 1 um.
TEST_CASE("conformity: the micrometer conforms at 1.7 um and is undecided at 2.5 um", "[reason][reference]")
{
    const ToleranceBand tolerance{-3.0, 3.0};
    const DecisionRule two_u{.confidence = 0.977249868051821}; // Phi(2)
    CHECK(decide({1.7, 0.5}, tolerance, two_u) == Conformity::within);
    CHECK(decide({2.5, 0.5}, tolerance, two_u) == Conformity::not_proven);
}

// Chance to accept what lies on the limit: guard band by multiples of U = 2 u; exact arithmetic.
TEST_CASE("conformity: risk on the limit by width of the guard band", "[reason][reference]")
{
    const auto risk = [](double multiple) {
        return conformance_probability({0.0, 0.5}, {.upper = -multiple}); // measured under limit - w
    };
    CHECK(risk(0.83) == Approx(0.0485).margin(5e-5)); // last digit
    CHECK(risk(1.0) == Approx(0.0228).margin(5e-5));  // last digit
    CHECK(risk(1.5) == Approx(0.00135).margin(5e-6)); // last digit
}

TEST_CASE("conformity: few degrees of freedom widen the guard band by Student's factor",
          "[reason][reference]")
{
    const Measured three_plucks{4.0, 0.5, 2.0};
    CHECK(guard_band(three_plucks, {}) ==
          Approx(0.5 * 2.920).margin(5e-4)); // JCGM 100 table G.2, 90 % two-sided
    CHECK(guard_band(three_plucks, {.use_degrees_of_freedom = false}) ==
          Approx(0.5 * 1.645).margin(5e-4)); // last digit
    CHECK(decide(three_plucks, {-5.0, 5.0}) == Conformity::not_proven);
}

TEST_CASE("conformity: the deciding uncertainty decides, a little more does not", "[reason][property]")
{
    const ToleranceBand tolerance{-3.0, 8.0};
    for (const double cents : {-6.0, -2.5, 0.0, 7.0, 8.3, 12.0}) {
        CAPTURE(cents);
        const double enough = deciding_uncertainty({cents, 1.0}, tolerance, {});
        CHECK(decide({cents, 0.999 * enough}, tolerance) != Conformity::not_proven);
        CHECK(decide({cents, 1.001 * enough}, tolerance) == Conformity::not_proven);
    }
    CHECK(deciding_uncertainty({8.0, 1.0}, tolerance, {}) == 0.0);
}

// Twin: drawing items and measuring them.
TEST_CASE("conformity: global risks agree with drawing a production", "[reason][twin]")
{
    const ToleranceBand tolerance{-5.0, 5.0};
    const ToleranceBand acceptance{-4.2, 4.2};
    const auto risks = conformity_risks({0.5, 2.5}, tolerance, acceptance, 0.7);
    std::mt19937_64 random(42);
    std::normal_distribution<double> item(0.5, 2.5);
    std::normal_distribution<double> error(0.0, 0.7);
    const int count = 200000;
    int consumer = 0;
    int producer = 0;
    for (int i = 0; i < count; ++i) {
        const double truth = item(random);
        const double seen = truth + error(random);
        const bool conforms = truth >= tolerance.lower && truth <= tolerance.upper;
        const bool accepted = seen >= acceptance.lower && seen <= acceptance.upper;
        consumer += accepted && !conforms;
        producer += conforms && !accepted;
    }
    // Four standard deviations of a binomial count.
    CHECK(static_cast<double>(consumer) / count == Approx(risks.consumers_risk).margin(6e-4));
    CHECK(static_cast<double>(producer) / count == Approx(risks.producers_risk).margin(2.5e-3));
}
