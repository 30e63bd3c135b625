// SPDX-License-Identifier: MIT
#include "reason/life_study.hpp"

#include "published_lives.hpp"
#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

/// Published lives in the dress of strings, so that the whole way can be checked.
std::vector<ObservedString> as_strings(const std::vector<stats::LifeObservation>& lives, StringPlace place)
{
    std::vector<ObservedString> strings;
    for (const auto& life : lives)
        strings.push_back({.harp = "Heron",
                           .place = place,
                           .material = "gut",
                           .age_at_entry_days = life.entry,
                           .age_at_exit_days = life.exit,
                           .broke = life.failed});
    return strings;
}

} // namespace

// NIST/SEMATECH e-Handbook 8.4.1.3 and Freireich et al. 1963, as in tests/src/stats.
TEST_CASE("study_lives: published lives come through unchanged", "[reason][reference]")
{
    auto strings = as_strings(stats::published::nist_weibull(), {Letter::C, 6});
    const auto arm = as_strings(stats::published::mercaptopurine(), {Letter::C, 4});
    strings.insert(strings.end(), arm.begin(), arm.end());
    const auto study = study_lives(strings, {.grouping = LifeGrouping::octave});
    REQUIRE(study.groups.size() == 2);
    CHECK(study.groups[0].name == "octave 2");
    CHECK(study.groups[0].own->fit.life.scale ==
          Approx(606.527558).epsilon(1e-5)); // as agreed for this table
    CHECK(study.groups[0].own->lognormal_excess.value() ==
          Approx(154.3925 - 154.2692).margin(1e-4)); // last digits
    CHECK(study.groups[1].name == "octave 4");
    CHECK(study.groups[1].observed_median_days->time == 23.0);
    CHECK(study.total.failures == 19);
    CHECK(study.difference->p_value < 1e-3);
}

TEST_CASE("study_lives: groups by octave, material, harp and school", "[reason]")
{
    std::mt19937_64 random{51};
    const auto school = synthetic::draw_school(random);
    const auto groups = [&](LifeGrouping grouping) { return grouped(school.observed, grouping).size(); };
    CHECK(groups(LifeGrouping::octave) == 8);
    CHECK(groups(LifeGrouping::material) == 3);
    CHECK(groups(LifeGrouping::harp) == 3);
    CHECK(groups(LifeGrouping::school) == 1);
    CHECK(groups(LifeGrouping::octave_and_material) == 9); // octave 5 has gut and steel
    for (const auto grouping :
         {LifeGrouping::octave, LifeGrouping::school, LifeGrouping::octave_and_material})
        CHECK(grouping_from_name(grouping_name(grouping)) == grouping);
}

TEST_CASE("study_lives: finds the lives that were put in", "[reason]")
{
    std::mt19937_64 random{52};
    const auto school = synthetic::draw_school(random, {.harps = 8, .years = 8});
    const auto study = study_lives(school.observed);
    CHECK(study.shape->limits.lower < 1.6);
    CHECK(1.6 < study.shape->limits.upper);
    int held = 0;
    for (const auto& group : study.groups) {
        const int octave = group.name[7] - '0';
        const bool steel = group.name.find("steel") != std::string::npos;
        const StringPlace place{Letter::E, 8 - octave};
        const double scale =
            steel ? 40000.0 : synthetic::scale_days(octave == 0 ? StringPlace{Letter::F, 7} : place);
        const double truth = stats::weibull_quantile({1.6, scale}, 0.5);
        held += group.median_days->limits.lower < truth && truth < group.median_days->limits.upper;
    }
    CHECK(held >= 8); // of nine limits at 95 %
}

TEST_CASE("study_lives: too few breaks give no fit of their own but a pooled one", "[reason]")
{
    auto strings = as_strings(stats::published::lives({300, 400}, {500, 600, 200}), {Letter::C, 4});
    const auto more = as_strings(stats::published::nist_weibull(), {Letter::C, 6});
    strings.insert(strings.end(), more.begin(), more.end());
    const auto study = study_lives(strings, {.grouping = LifeGrouping::octave});
    CHECK_FALSE(study.groups[1].own);
    CHECK(study.groups[1].median_days);
    CHECK(study.groups[0].own);
}

TEST_CASE("study_lives: without any break there is a bound and a reason", "[reason]")
{
    const auto study = study_lives(as_strings(stats::published::lives({}, {365.25, 730.5}), {Letter::C, 4}));
    CHECK(study.silent == stats::NoFit::no_failures);
    CHECK_FALSE(study.shape);
    CHECK(study.groups[0].highest_breaks_per_year.value() ==
          Approx(2.9957 / 3.0).epsilon(1e-4)); // -log 0.05 / 3 years
    CHECK(study.total.exposure == Approx(3 * 365.25));
    CHECK(study_lives({}).groups.empty());
}

TEST_CASE("evidence_needed: breaks until a rate is known within a factor", "[reason]")
{
    const auto two = evidence_needed(2, 3.0);
    CHECK(two.breaks_wanted == 8);                           // (1.96 / ln 2)^2 = 7.995
    CHECK(two.years_to_wait == Approx(9.0));                 // six more at two in three years
    CHECK(evidence_needed(2, 3.0, 1.5).breaks_wanted == 24); // 23.4
    CHECK_FALSE(evidence_needed(0, 3.0).years_to_wait);
    CHECK(evidence_needed(20, 3.0).years_to_wait == 0.0);
}
