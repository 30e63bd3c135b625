// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace harpkeep {

/// The partials of one stiff string, f_k = k F sqrt(1 + B k^2) (pinned ends).
///
/// Reference  H. Fletcher, JASA 36, 203 (1964) (from memory); R. W. Young, JASA 24 (1952)
struct StiffSeries {
    double fundamental_hz = 0.0; ///< F, which no partial sounds
    double inharmonicity = 0.0;  ///< B

    [[nodiscard]] double partial_hz(int number) const;
};

/// One measured partial, as the fit of a series needs it.
struct SeriesPoint {
    int number = 1;
    double frequency_hz = 0.0;
    double variance_cents2 = 0.0;
};

/// What a robust fit of F and B to measured partials says.
struct SeriesFit {
    StiffSeries series;
    double first_partial_hz = 0.0;      ///< f1, deviation included
    double uncertainty_cents = 0.0;     ///< standard uncertainty of f1
    double degrees_of_freedom = 0.0;    ///< effective: with them u covers 95 % as the posterior does
    double scatter_cents = 0.0;         ///< standard deviation of the partials about the series beyond noise
    std::vector<double> residual_cents; ///< measured minus series, one for each point
    std::vector<double> trust;          ///< 1: as good as its variance says; towards 0: an outlier
};

/// Robust weighted fit.
///
/// Given    at least one point, each with variance > 0; typical_b > 0, where B is expected before anything is
///          measured
/// Returns  the fit. With one or two partials B rests mostly on what is expected (log-normal, a factor of 3).
/// Notes    Each partial deviates from the series by a share of its own (bearing, wave reflections at
///          soundboard and neck) besides its noise. How much is not known beforehand, so every size of that
///          scatter from nothing to 10 cents is tried and weighed by how well it explains the partials
///          (marginal likelihood): a clean string is fitted as its noise says, at the limit; an uneven one
///          with equal weights. Student likelihood of 4 degrees of freedom, so that single partials do not
///          pull. The pitch is the first partial itself: where its noise is larger than the scatter, it is
///          read off the series, where it is smaller, from that partial alone; between, as both allow.
[[nodiscard]] SeriesFit fit_series(std::span<const SeriesPoint> points, double typical_b);

/// Where the partials lie, to find the next one: one scatter, no uncertainty, twenty times quicker.
[[nodiscard]] StiffSeries follow_series(std::span<const SeriesPoint> points, double typical_b);

} // namespace harpkeep
