// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
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
    double first_partial_hz = 0.0; ///< f1 = F sqrt(1 + B)
    double variance_cents2 = 0.0;  ///< of f1
    double scatter_cents = 0.0;    ///< standard deviation of the partials about the series beyond their noise
    double degrees_of_freedom = 0.0;    ///< behind the scatter
    std::vector<double> residual_cents; ///< measured minus series, one for each point
    std::vector<double> trust;          ///< 1: as good as its variance says; towards 0: an outlier
};

/// Robust weighted fit.
///
/// Given    at least one point with variance > 0; typical_b > 0, where B is expected before anything is
/// measured Returns  the fit. With one or two partials B rests mostly on what is expected (log-normal, a
/// factor of 3). Notes    Each partial deviates from the series by a share of its own (bearing, wave
/// reflections at soundboard
///          and neck) besides its noise; that scatter is estimated with the fit (method of moments) and
///          Student weights of 4 degrees of freedom keep single partials from pulling.
[[nodiscard]] SeriesFit fit_series(std::span<const SeriesPoint> points, double typical_b);

} // namespace harpkeep
