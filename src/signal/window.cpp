// SPDX-License-Identifier: MIT
#include "signal/window.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

std::vector<double> hann_window(std::size_t length)
{
    std::vector<double> window(length);
    for (std::size_t i = 0; i < length; ++i) {
        const double phase =
            2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) / static_cast<double>(length);
        window[i] = 0.5 - 0.5 * std::cos(phase);
    }
    return window;
}

std::vector<double> blackman_harris_window(std::size_t length)
{
    std::vector<double> window(length);
    for (std::size_t i = 0; i < (length + 1) / 2; ++i) {
        const double phase =
            2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) / static_cast<double>(length);
        const double c = std::cos(phase); // cos 2p = 2 c^2 - 1, cos 3p = 4 c^3 - 3 c
        window[i] = 0.35875 - 0.48829 * c + 0.14128 * (2.0 * c * c - 1.0) - 0.01168 * (4.0 * c * c - 3.0) * c;
        window[length - 1 - i] = window[i];
    }
    return window;
}

std::vector<double> kaiser_window(std::size_t length, double beta)
{
    std::vector<double> window(length);
    const double middle = 0.5 * (static_cast<double>(length) - 1.0);
    for (std::size_t i = 0; i < length; ++i) {
        const double x = middle > 0.0 ? (static_cast<double>(i) - middle) / middle : 0.0;
        window[i] = std::cyl_bessel_i(0.0, beta * std::sqrt(std::max(0.0, 1.0 - x * x))) /
                    std::cyl_bessel_i(0.0, beta);
    }
    return window;
}

} // namespace harpkeep
