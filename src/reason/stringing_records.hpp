// SPDX-License-Identifier: MIT
#pragma once

#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "strings/stringing.hpp"

#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// A harp's stringing as far as its records tell, and where they tell too little.
struct RecordedStringing {
    StringingPlan plan;                   ///< lowest string first
    std::vector<StringPlace> not_planned; ///< nothing is noted of these places
    std::vector<StringPlace> no_length;   ///< the sounding length is missing
    std::vector<StringPlace>
        no_gauge; ///< neither diameter nor weighed mass, or a wound one without its outside
};

/// The stringing of a harp from its plan, at the pitch of its open strings.
///
/// Given  planned strings of this harp; the reference pitch
[[nodiscard]] RecordedStringing recorded_stringing(const HarpDetails& harp,
                                                   std::span<const PlannedString> planned, Hertz a4);

/// The strings table's name of a material as people write it: lower case, "phosphor bronze", "PVDF" and
/// "carbon" as fluorocarbon.
[[nodiscard]] std::string material_key(const std::string& written);

/// What a record says of a string, in the terms of the calculation; nothing when neither diameter nor weighed
/// mass is known.
[[nodiscard]] std::optional<StringSpec> spec_of(const StringMake& make);

/// A stringing as records of a harp: how a demonstration harp gets its invented plan into a ledger.
[[nodiscard]] std::vector<PlannedString> as_records(const StringingPlan& plan, const Uuid& harp_id);

/// What is missing, in a sentence for each kind; empty when the plan is whole.
[[nodiscard]] std::vector<std::string> gap_sentences(const RecordedStringing& stringing);

} // namespace harpkeep
