// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/conformity.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace harpkeep {

// Small pieces that the sentences of this folder share. Signed figures carry the 95 % interval.

/// "flat to natural", "natural to sharp", "open to engaged"; "flat to sharp" when `step` is nothing.
[[nodiscard]] std::string_view step_words(HarpKind kind, std::optional<Step> step);

/// "+6.2 ± 0.6 cents": value and half the 95 % interval.
[[nodiscard]] std::string cents_words(const Measured& cents);

/// "+6.2 cents (95 %: +5.6 to +6.8)".
[[nodiscard]] std::string cents_words(double cents, double lower_cents, double upper_cents);

/// "−5 to +5 cents".
[[nodiscard]] std::string band_words(const ToleranceBand& band_cents);

/// "too wide" for a positive error, "too narrow" for a negative one.
[[nodiscard]] std::string_view width_words(double cents);

/// "3F", "3F and 2C", "3F, 2C and 1A".
[[nodiscard]] std::string listed(std::span<const std::string> items);

/// "over 99.9 % certain", "99.4 % certain", "96 % certain": never rounded up to certainty.
[[nodiscard]] std::string certainty_words(double probability);

/// "1 step", "3 steps".
[[nodiscard]] std::string how_many(int count, std::string_view one, std::string_view more);

/// What stands below figures with a ±.
inline constexpr std::string_view interval_remark = "± is half the 95 % interval.";

/// What stands wherever a figure might tempt somebody to turn a screw (common practice).
inline constexpr std::string_view mechanism_caution =
    "Discs, nuts, rods and pedals are for a trained technician: these figures say what was measured, not "
    "what "
    "to turn.";

} // namespace harpkeep
