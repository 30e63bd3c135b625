// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

namespace harpkeep {

/// A pitch that sinks to where it settles, f(t) = f (1 + amount exp(-(t - start) / time)): a string swinging
/// wide is tightened by it.
struct PitchGlide {
    double amount = 0.0; ///< relative, at start_s
    double time_s = 1.0; ///< of the fall by 1/e
    double start_s = 0.0;

    /// Turns by which it runs ahead of a tone that stays at f: the integral of the excess.
    [[nodiscard]] double turns(double frequency_hz, double t_s) const
    {
        return frequency_hz * amount * time_s * -std::expm1(-(t_s - start_s) / time_s);
    }
};

} // namespace harpkeep
