// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <initializer_list>
#include <vector>

/// Published life data that several tests check against.
namespace harpkeep::stats::published {

inline std::vector<LifeObservation> lives(std::initializer_list<double> failed,
                                          std::initializer_list<double> censored)
{
    std::vector<LifeObservation> all;
    for (const double time : failed) all.push_back({0.0, time, true});
    for (const double time : censored) all.push_back({0.0, time, false});
    return all;
}

/// Remission in weeks under 6-mercaptopurine and under placebo: Freireich et al., Blood 21, 699 (1963), as in
/// the data set `gehan` of the R package MASS.
inline std::vector<LifeObservation> mercaptopurine()
{
    return lives({6, 6, 6, 7, 10, 13, 16, 22, 23}, {6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35});
}
inline std::vector<LifeObservation> placebo()
{
    return lives({1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23}, {});
}

/// NIST/SEMATECH e-Handbook 8.4.1.3: ten failures, ten units still sound at 500 hours.
inline std::vector<LifeObservation> nist_weibull()
{
    return lives({54, 187, 216, 240, 244, 335, 361, 373, 375, 386},
                 {500, 500, 500, 500, 500, 500, 500, 500, 500, 500});
}

/// NIST/SEMATECH e-Handbook 8.2.1.5: twenty units, four taken off early, ten at 200 hours.
inline std::vector<LifeObservation> nist_kaplan_meier()
{
    return lives({10, 32, 56, 98, 122, 181},
                 {50, 100, 125, 150, 200, 200, 200, 200, 200, 200, 200, 200, 200, 200});
}

} // namespace harpkeep::stats::published
