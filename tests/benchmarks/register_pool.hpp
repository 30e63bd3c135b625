// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/interval_cell.hpp"

#include <array>
#include <string>
#include <vector>

namespace harpkeep::benchmarks {

/// What was stated and what is true, pooled over four parts of the compass, some two octaves each.
class RegisterPool {
  public:
    void add(double string_hz, double error_cents, double uncertainty_cents, double degrees_of_freedom);
    /// Given  three vectors of one length
    void add(double string_hz, const std::vector<double>& errors_cents,
             const std::vector<double>& uncertainties_cents, const std::vector<double>& freedoms);

    [[nodiscard]] std::string table(const std::string& title) const;

  private:
    static constexpr std::array from_hz{0.0, 120.0, 480.0, 1200.0};
    std::array<tests::IntervalCell, from_hz.size()> cells_;
};

} // namespace harpkeep::benchmarks
