// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

namespace harpkeep {

/// Hann window of `length` points, symmetric about its middle, not zero at the ends.
///
/// Notes  Points lie at (i + 1/2) / length, so that no sample is wasted on a weight of zero.
[[nodiscard]] std::vector<double> hann_window(std::size_t length);

/// Four-term Blackman-Harris window, side lobes under -92 dB, first null 4 bins of 1/length away.
///
/// Reference  F. J. Harris, "On the use of windows for harmonic analysis with the discrete Fourier
/// transform",
///            Proc. IEEE 66 (1978), table 1 (coefficients from memory; the side lobes are tested)
[[nodiscard]] std::vector<double> blackman_harris_window(std::size_t length);

/// Kaiser window with shape `beta`, symmetric, for filter design.
[[nodiscard]] std::vector<double> kaiser_window(std::size_t length, double beta);

} // namespace harpkeep
