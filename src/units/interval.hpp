// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <cmath>

namespace harpkeep {

/// Cents for a relative change of frequency of 1: 1200 / ln 2 = 1731.234.
inline constexpr double cents_per_neper = 1731.2340490667560888;

/// Interval from `lower` to `upper`, positive when `upper` is the higher.
///
/// Given      two frequencies > 0
/// Returns    1200 log2(upper / lower) in cents
/// Reference  A. J. Ellis, appendix to Helmholtz, On the Sensations of Tone, 1885 (from memory)
[[nodiscard]] inline Cents interval(Hertz lower, Hertz upper)
{
    return Cents{1200.0 * std::log2(upper / lower)};
}

/// The frequency that lies `by` above `from`; inverse of interval().
[[nodiscard]] inline Hertz raised(Hertz from, Cents by)
{
    return from * std::exp2(by.value() / 1200.0);
}

} // namespace harpkeep
