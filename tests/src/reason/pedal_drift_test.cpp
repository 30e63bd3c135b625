// SPDX-License-Identifier: MIT
#include "reason/pedal_drift.hpp"

#include <catch2/catch.hpp>

#include <array>

using namespace harpkeep;

namespace {

/// Two strings of the F pedal and one of the C pedal, each moving evenly.
DriftFit fit_of(double first_trend, double second_trend)
{
    std::vector<StepHistory> histories;
    for (const auto& [place, trend] :
         {std::pair{StringPlace{Letter::F, 3}, first_trend},
          std::pair{StringPlace{Letter::F, 4}, second_trend}, std::pair{StringPlace{Letter::C, 4}, 0.0}}) {
        StepHistory history{.place = place, .step = Step::lower};
        for (int i = 0; i < 8; ++i)
            history.points.push_back({150 * i, trend * 150 * i / 365.25, 0.2, std::nullopt});
        histories.push_back(std::move(history));
    }
    return fit_drift(histories, {}).value();
}

} // namespace

TEST_CASE("pedal drift: is the mean of the pedal's strings and of no other", "[reason][twin]")
{
    const auto fit = fit_of(-2.0, -4.0);
    const auto drift = pedal_drift(fit, Letter::F, Step::lower);
    REQUIRE(drift);
    CHECK(drift->steps.size() == 2);
    double sum = 0.0;
    for (const auto& step : fit.steps)
        if (step.place.letter == Letter::F) sum += step.trend_cents_per_year.value;
    CHECK(drift->trend_cents_per_year.value == Approx(sum / 2.0)); // rounding
    CHECK(drift->first_day == 0);
    CHECK(drift->last_day == 1050);
    CHECK_FALSE(pedal_drift(fit, Letter::F, Step::upper));
}

TEST_CASE("pedal drift: the curve of equal strings is that of each, no surer", "[reason][property]")
{
    const auto fit = fit_of(-3.0, -3.0);
    const auto drift = pedal_drift(fit, Letter::F, Step::lower);
    REQUIRE(drift);
    const std::array days{0, 500, 1400};
    const auto mean = pedal_curve(fit, *drift, days);
    const auto first = drift_curve(fit, drift->steps[0], days);
    const auto second = drift_curve(fit, drift->steps[1], days);
    REQUIRE(mean.size() == days.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        CHECK(mean[i].day == days[i]);
        CHECK(mean[i].cents == Approx(0.5 * (first[i].cents + second[i].cents)).margin(1e-9)); // rounding
        // Equal histories, so both are equally sure, and their mean as sure as each.
        CHECK(mean[i].uncertainty_cents ==
              Approx(first[i].uncertainty_cents).epsilon(0.05)); // sampled parameters
    }
    CHECK(pedal_drift_sentence(*drift, HarpKind::pedal).find("F pedal") == 0);
}
