// SPDX-License-Identifier: MIT
#include "random_lives.hpp"
#include "stats/kaplan_meier.hpp"
#include "stats/log_rank.hpp"
#include "stats/lognormal.hpp"
#include "stats/weibull.hpp"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>

using namespace harpkeep::stats;

namespace {

using Answers = std::map<std::string, std::vector<double>>;
using Groups = std::vector<std::vector<LifeObservation>>;

/// What R survival says of the lives.
Answers ask_r(const Groups& groups)
{
    const auto path =
        std::filesystem::temp_directory_path() / ("harpkeep_r_twin_" + std::to_string(::getpid()) + "_" + std::to_string(std::rand()) + ".csv");
    std::ofstream file{path};
    file.precision(17);
    file << "entry,exit,event,group\n";
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const auto& life : groups[g])
            file << life.entry << ',' << life.exit << ',' << life.failed << ',' << g << '\n';
    file.close();

    const std::string command = std::string{HARPKEEP_RSCRIPT} + " " + HARPKEEP_R_TWIN + " " + path.string();
    std::FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    Answers answers;
    char name[64], value[64];
    while (std::fscanf(pipe, "%63s %63s", name, value) == 2)
        answers[name].push_back(std::string{value} == "NA" ? std::nan("") : std::stod(value));
    REQUIRE(pclose(pipe) == 0);
    std::filesystem::remove(path);
    return answers;
}

Groups random_groups(unsigned seed, double late_share)
{
    std::mt19937_64 random{seed};
    return {random_lives::draw(random, {1.4, 500}, 60, {.late_share = late_share, .latest_entry = 0.5}),
            random_lives::draw(random, {1.4, 700}, 40, {.late_share = late_share, .latest_entry = 0.5})};
}

std::vector<LifeObservation> together(const Groups& groups)
{
    std::vector<LifeObservation> all;
    for (const auto& group : groups) all.insert(all.end(), group.begin(), group.end());
    return all;
}

void check_same(std::optional<double> ours, double theirs)
{
    CHECK(ours.has_value() == !std::isnan(theirs));
    if (ours) CHECK(*ours == Approx(theirs).epsilon(1e-12)); // fifteen digits printed
}

} // namespace

TEST_CASE("kaplan_meier: agrees with R survival, with and without late entry", "[stats][twin]")
{
    const auto [seed, late] = GENERATE(std::pair{1U, 0.0}, std::pair{2U, 0.5}, std::pair{3U, 0.9});
    const auto groups = random_groups(seed, late);
    const auto r = ask_r(groups);
    const auto curve = kaplan_meier(together(groups));
    REQUIRE(curve.steps.size() == r.at("time").size());
    for (std::size_t i = 0; i < curve.steps.size(); ++i) {
        const auto& step = curve.steps[i];
        CHECK(step.time == Approx(r.at("time")[i]).epsilon(1e-14)); // printed digits
        CHECK(step.at_risk == r.at("at_risk")[i]);
        CHECK(step.survival == Approx(r.at("survival")[i]).margin(1e-12)); // rounding of products
        if (step.survival > 0.0)                                           // R prints no error at 0
            CHECK(greenwood_error(step) == Approx(r.at("error")[i]).margin(1e-12));
        const auto limits = survival_limits(step);
        check_same(limits ? std::optional{limits->lower} : std::nullopt, r.at("lower")[i]);
        check_same(limits ? std::optional{limits->upper} : std::nullopt, r.at("upper")[i]);
    }
    const auto median = life_quantile(curve, 0.5);
    REQUIRE(median);
    check_same(median->time, r.at("median")[0]);
    check_same(median->lower, r.at("median_lower")[0]);
    check_same(median->upper, r.at("median_upper")[0]);
}

TEST_CASE("log_rank: agrees with R survival, with and without late entry", "[stats][twin]")
{
    const auto [seed, late] = GENERATE(std::pair{4U, 0.0}, std::pair{5U, 0.6});
    const auto groups = random_groups(seed, late);
    const auto r = ask_r(groups);
    const auto test = log_rank(groups);
    REQUIRE(test);
    CHECK(test->chi_squared ==
          Approx(r.at("log_rank")[0]).epsilon(1e-10)); // the Cox score test, no ties here
    if (late == 0.0) CHECK(test->chi_squared == Approx(r.at("survdiff")[0]).epsilon(1e-10));
}

TEST_CASE("fit_weibull and fit_lognormal: agree with R survival without late entry", "[stats][twin]")
{
    const auto seed = GENERATE(6U, 7U, 8U);
    const auto groups = random_groups(seed, 0.0);
    const auto r = ask_r(groups);
    const auto lives = together(groups);
    constexpr double r_stops_at = 1e-6; // relative; survreg iterates until its likelihood moves by 1e-9
    const auto weibull = fit_weibull(lives);
    REQUIRE(weibull);
    CHECK(weibull->life.shape == Approx(r.at("shape")[0]).epsilon(r_stops_at));
    CHECK(weibull->life.scale == Approx(r.at("scale")[0]).epsilon(r_stops_at));
    CHECK(weibull->log_likelihood == Approx(r.at("log_likelihood")[0]).epsilon(1e-10));
    CHECK(weibull->log_scale_error == Approx(r.at("log_scale_error")[0]).epsilon(1e-4)); // R's numerical step
    CHECK(weibull->log_shape_error == Approx(r.at("log_shape_error")[0]).epsilon(1e-4));
    const auto both = fit_weibull_common_shape(groups);
    REQUIRE(both);
    CHECK(both->shape == Approx(r.at("common_shape")[0]).epsilon(r_stops_at));
    CHECK(both->log_likelihood == Approx(r.at("common_log_likelihood")[0]).epsilon(1e-10));
    const auto lognormal = fit_lognormal(lives);
    REQUIRE(lognormal);
    CHECK(lognormal->log_mean == Approx(r.at("log_mean")[0]).epsilon(r_stops_at));
    CHECK(lognormal->log_sigma == Approx(r.at("log_sigma")[0]).epsilon(r_stops_at));
    CHECK(lognormal->log_likelihood == Approx(r.at("lognormal_log_likelihood")[0]).epsilon(1e-10));
}
