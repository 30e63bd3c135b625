// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace harpkeep {

/// Random numbers that are the same with every standard library: the engine is fixed by the standard, the
/// distributions of <random> are not, so they are written out here.
class RandomSource {
  public:
    explicit RandomSource(std::uint64_t seed) : engine_(seed) {}

    /// Uniform in [0, 1), 53 bits.
    [[nodiscard]] double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
    [[nodiscard]] double uniform(double low, double high) { return low + (high - low) * uniform(); }

    /// Uniform in 0 .. count - 1.
    ///
    /// Given  count > 0
    /// Notes  The bias of the remainder is count / 2^64: nothing for the counts of a harp.
    [[nodiscard]] std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }

    /// Standard normal.
    ///
    /// Reference  Box & Muller, Ann. Math. Stat. 29, 610 (1958) (from memory)
    [[nodiscard]] double normal()
    {
        if (has_spare_) {
            has_spare_ = false;
            return spare_;
        }
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
        const double angle = 2.0 * std::numbers::pi * uniform();
        spare_ = radius * std::sin(angle);
        has_spare_ = true;
        return radius * std::cos(angle);
    }

  private:
    std::mt19937_64 engine_;
    double spare_ = 0.0;
    bool has_spare_ = false;
};

} // namespace harpkeep
