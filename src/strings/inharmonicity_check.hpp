// SPDX-License-Identifier: MIT
#pragma once

#include "strings/stringing.hpp"

#include <optional>

namespace harpkeep {

/// A coefficient B as measured from the partials of a pluck.
struct MeasuredInharmonicity {
    double value = 0.0;
    double standard_uncertainty = 0.0;
};

/// How a measured B lies to what the stringing plan leads to expect.
enum class InharmonicityVerdict {
    as_planned,  ///< within the bounds, widened by the measurement
    stiffer,     ///< above: thicker or stiffer string than planned, or a worn, stepped or kinked one
    more_supple, ///< below: thinner or longer than planned, or of another material
    above_floor, ///< wound: above the core's floor, as it should be
};

struct InharmonicityComparison {
    InharmonicityVerdict verdict = InharmonicityVerdict::as_planned;
    double ratio = 1.0; ///< measured / predicted
    /// Plain strings: the diameter that would give the measured B if all else is as planned. It rests on
    /// Young's modulus, so on a remembered constant.
    std::optional<Millimetres> equivalent_diameter;
};

/// Compares the B of a string with the one its plan predicts.
///
/// Given    the plan's string and its figures; `coverage` widens the bounds by that many standard
/// uncertainties Returns  nothing when the material has no Young's modulus, so that nothing can be predicted
/// Notes    For a plain string B = pi^2 E d^2 / (64 rho f^2 L^4): the equivalent diameter goes with the root.
[[nodiscard]] std::optional<InharmonicityComparison>
compare_inharmonicity(const StrungPlace& string, const StringFigures& predicted,
                      const MeasuredInharmonicity& measured, double coverage = 2.0);

} // namespace harpkeep
