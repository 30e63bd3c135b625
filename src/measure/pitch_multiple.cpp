// SPDX-License-Identifier: MIT
#include "measure/pitch_multiple.hpp"

#include "base/expects.hpp"
#include "measure/pitch_candidates.hpp"
#include "measure/stiff_series.hpp"
#include "units/interval.hpp"

#include <cmath>

namespace harpkeep {

std::optional<PluckMeasurement> at_multiple(const PluckMeasurement& measured, int multiple)
{
    HARPKEEP_EXPECTS(multiple >= 2);
    PluckMeasurement higher = measured;
    higher.rivals.clear();
    higher.partials.clear();
    std::vector<SeriesPoint> points;
    double kept_power = 0.0, power = 0.0;
    for (Partial partial : measured.partials) {
        const double of_this = std::pow(10.0, 0.1 * partial.level_db);
        power += of_this;
        if (partial.number % multiple != 0) continue;
        kept_power += of_this;
        partial.number /= multiple;
        points.push_back({partial.number,
                          partial.frequency_hz * std::exp(-partial.glide_cents / cents_per_neper),
                          partial.uncertainty_cents * partial.uncertainty_cents});
        higher.partials.push_back(partial);
    }
    if (points.empty()) return std::nullopt;
    const auto fit = fit_series(points, typical_inharmonicity(multiple * measured.frequency_hz));
    higher.frequency_hz = fit.first_partial_hz;
    higher.inharmonicity = fit.series.inharmonicity;
    higher.uncertainty_cents = std::hypot(fit.uncertainty_cents, measured.glide_uncertainty_cents);
    higher.degrees_of_freedom = fit.degrees_of_freedom;
    const double kept_share =
        static_cast<double>(points.size()) / static_cast<double>(measured.partials.size());
    higher.snr_db +=
        10.0 * std::log10(kept_power / power / kept_share); // the noise beside each is about the same
    return higher;
}

} // namespace harpkeep
