// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace harpkeep::tests {

/// Share of successes with the limits between which the true share lies in 95 of 100 cases.
struct ShareWithLimits {
    double share = 0.0, low = 0.0, high = 1.0;
};

/// Given    successes <= count
/// Reference  Clopper & Pearson, Biometrika 26, 404 (1934) (from memory)
[[nodiscard]] ShareWithLimits share_with_limits(std::size_t successes, std::size_t count);

/// Errors of one kind against truth, with what was stated of each: registers pooled until there are enough.
class IntervalCell {
  public:
    void add(double error_cents, double uncertainty_cents, double degrees_of_freedom);
    void add(const IntervalCell& other);

    [[nodiscard]] std::size_t count() const { return errors_cents_.size(); }
    /// How many errors lie within the 95 % interval of their uncertainty and degrees of freedom.
    [[nodiscard]] ShareWithLimits coverage() const;
    [[nodiscard]] double rms_error_cents() const;
    /// Quantile of the absolute errors.
    [[nodiscard]] double quantile_cents(double share) const;
    /// Rms half-width of the 95 % intervals against the half-width that normal errors of this rms need: 1
    /// when honest, above 1 when it hides, below when it boasts.
    [[nodiscard]] double width_ratio() const;
    /// The same with medians, which single wide intervals and single large errors do not move.
    [[nodiscard]] double median_width_ratio() const;

  private:
    std::vector<double> errors_cents_, half_widths_cents_;
};

/// One line of a table, and its head.
[[nodiscard]] std::string interval_row(const IntervalCell& cell);
[[nodiscard]] std::string interval_head();

} // namespace harpkeep::tests
