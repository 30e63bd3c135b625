// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

namespace harpkeep {

// The partials of a stiff string with pinned ends, and the two ways in which books write them:
//
//   f_n = n F sqrt(1 + B n^2)          F is the pitch the string would have without stiffness. It is NOT the
//                                      first partial: f_1 = F sqrt(1 + B).
//   f_n = n f_1 [1 + (n^2 - 1) A]      f_1 is the first partial and A = B / 2 to first order.
//
// Trap: B read where A is meant doubles the stretch of every partial, and F read where f_1 is meant moves the
// pitch by 866 B cents (0.3 cent for B = 4e-4). The project stores B and the first partial.

/// Inharmonicity coefficient B = pi^3 E d^4 / (64 T L^2).
///
/// Given      the diameter of what bends: the plain string, or the core of a wound one. For a wound string
///            the result is a floor: the wrap adds some stiffness, and unwound ends shift single partials
///            (Chumnantas, PhD thesis, Edinburgh 1995, abstract).
/// Reference  H. Fletcher, J. Acoust. Soc. Am. 36, 203 (1964) (from memory); Hodgkinson et al., DAFx-09,
///            eqs. 1 and 2
[[nodiscard]] double inharmonicity(Megapascals young_modulus, Millimetres bending_diameter, Newtons tension,
                                   Millimetres length);

/// Frequency of partial `number` from the pitch without stiffness: n F sqrt(1 + B n^2).
[[nodiscard]] Hertz partial_from_stiffless(Hertz stiffless_pitch, double inharmonicity, int number);

/// Frequency of partial `number` from the first partial: n f_1 sqrt((1 + B n^2) / (1 + B)).
[[nodiscard]] Hertz partial_from_first(Hertz first_partial, double inharmonicity, int number);

/// The first partial from the pitch without stiffness: F sqrt(1 + B).
[[nodiscard]] Hertz first_partial(Hertz stiffless_pitch, double inharmonicity);
/// Inverse of first_partial().
[[nodiscard]] Hertz stiffless_pitch(Hertz first_partial, double inharmonicity);

/// How far partial `number` lies above n F: 600 log2(1 + B n^2).
[[nodiscard]] Cents partial_stretch(double inharmonicity, int number);

/// A of the second convention: B / 2 to first order, with relative error (n^2 + 3) B / 4 at partial n.
[[nodiscard]] constexpr double second_convention(double inharmonicity)
{
    return 0.5 * inharmonicity;
}
/// Inverse of second_convention().
[[nodiscard]] constexpr double from_second_convention(double coefficient)
{
    return 2.0 * coefficient;
}

/// Stretch of a plain string's partial from its measures alone: 3.4e13 n^2 d^2 / (f^2 l^4), d and l in cm.
///
/// Given      young_over_density  E / rho in (m/s)^2; the published constant is for 25.5e6, steel
/// Returns    the first-order stretch in cents; the constant is (600 / ln 2) (pi^2 / 64) E / rho
/// Accuracy   the constant agrees with the published 3.4e13 to 0.12 % (tests/src/strings/
///            inharmonicity_test.cpp)
/// Reference  R. W. Young, J. Acoust. Soc. Am. 24(3), May 1952, abstract
[[nodiscard]] Cents stretch_from_measures(double young_over_density, Millimetres diameter, Millimetres length,
                                          Hertz frequency, int number);

} // namespace harpkeep
