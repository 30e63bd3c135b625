// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

namespace harpkeep::db {

// How enumerations are written into rows. The codes are part of the schema: they never change their meaning,
// whatever order the enumerations of src/ take. The readers throw LedgerFailure on a code that is none.

[[nodiscard]] int code_of(Position position);
[[nodiscard]] Position position_from_code(std::int64_t code);

[[nodiscard]] int code_of(Step step);
[[nodiscard]] Step step_from_code(std::int64_t code);
inline constexpr int whole_step_code = 2;

/// One bit for each doubt.
[[nodiscard]] std::int64_t code_of(const std::vector<Doubt>& doubts);
[[nodiscard]] std::vector<Doubt> doubts_from_code(std::int64_t code);

[[nodiscard]] StringPlace place_from_code(std::int64_t diatonic_index);

/// A measured number as a whole number of small units: 0.051234 cents are 51234 microcents.
///
/// Given  per_unit  small units in one unit of `value`
///        what      for the message when the number is none (not finite, or too large to be one)
[[nodiscard]] std::int64_t scaled(double value, double per_unit, std::string_view what);

/// Degrees of freedom in tenths; infinity is kept as its own code.
[[nodiscard]] std::int64_t freedom_code(double degrees_of_freedom);
[[nodiscard]] double freedom_from_code(std::int64_t tenths);

} // namespace harpkeep::db
