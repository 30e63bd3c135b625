// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/cause.hpp"
#include "reason/string_condition.hpp"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

// Causes in sentences for people: where, how much, how sure, what it rests on and what it points to. Never
// what to turn.

/// Lengths of open strings, where they are known.
using OpenLengths = std::map<StringPlace, Millimetres>;

/// What a cent is in millimetres where a string's fault shows.
struct LengthOfCent {
    Millimetres sounding;     ///< length that sounds in the higher position of the step
    Millimetres for_one_cent; ///< change of it that makes a cent, by geometry alone
};
/// Nothing for pedals and neck, for a string of unknown length, and where the step cannot be told.
[[nodiscard]] std::optional<LengthOfCent> length_of_cent(const Fault& fault, HarpKind kind,
                                                         const OpenLengths& lengths);

/// What was found and what it points to; with the length of the string what a cent is in millimetres.
[[nodiscard]] std::string fault_sentence(const Fault& fault, HarpKind kind, const OpenLengths& lengths = {});

[[nodiscard]] std::string condition_sentence(const StringCondition& condition, HarpKind kind);

/// All of it: faults, what excuses them, suspicions, conditions, what is missing, and the caution. `report`
/// is nothing when too few steps were measured.
[[nodiscard]] std::vector<std::string> cause_sentences(const std::optional<CauseReport>& report,
                                                       std::span<const StringCondition> conditions,
                                                       int steps_measured, HarpKind kind,
                                                       const OpenLengths& lengths = {});

} // namespace harpkeep
