// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/harp_verdict.hpp"
#include "reason/step_verdict.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

// Verdicts in sentences for people: what, how sure, what it rests on.

/// "within tolerance", "not proven", "out of tolerance".
[[nodiscard]] std::string_view conformity_words(Conformity conformity);

/// "4C flat to natural: +6.2 ± 0.6 cents, out of tolerance (−5 to +5 cents)."
[[nodiscard]] std::string step_sentence(const StepVerdict& verdict, HarpKind kind);

/// "Pluck 3A again, natural and sharp, about 3 times as often." or "5C was not measured in flat and natural."
[[nodiscard]] std::string pluck_again_sentence(const PluckAgain& again);

/// What the steps were judged against and where that comes from.
[[nodiscard]] std::string tolerance_sentence(const ToleranceSettings& settings);

/// How flat to sharp is judged, and from where on a step is watched.
[[nodiscard]] std::string whole_step_sentence(const ToleranceSettings& settings);

/// "Call the technician now."
[[nodiscard]] std::string_view urgency_sentence(Urgency urgency);

[[nodiscard]] std::string reason_sentence(const Reason& reason, HarpKind kind);

/// The whole verdict: urgency, its reasons, counts and what they rest on.
[[nodiscard]] std::vector<std::string> verdict_sentences(const HarpVerdict& verdict, HarpKind kind);

} // namespace harpkeep
