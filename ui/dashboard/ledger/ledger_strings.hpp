// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_clusters.hpp"
#include "reason/break_risk.hpp"
#include "records/harp_record.hpp"
#include "records/spare_record.hpp"
#include "records/string_record.hpp"
#include "strings/material.hpp"
#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/models/strings_model.hpp"
#include "ui/dashboard/models/tension_model.hpp"

#include <map>
#include <vector>

namespace harpkeep::dashboard {

/// What a school's strings teach; costly, so it is kept while the ledger stays as it is.
struct Lives {
    std::vector<ObservedString> observed;
    std::optional<LifeModel> model; ///< nothing: too little has been seen
    std::map<Uuid, std::string> harp_names;
    ClusterReport clusters; ///< of breaks; empty without a model
};
[[nodiscard]] Lives learn_from(const std::vector<StringLife>& all, std::map<Uuid, std::string> harp_names,
                               Date today);

/// What the page shows alike for every harp of a school; costly too.
struct SchoolStrings {
    std::vector<LifeCurve> curves;
    std::vector<StockRow> stock;
    std::string order_total;
};
struct SchoolFacts {
    std::vector<StringLife> on; ///< any harp now
    std::vector<SpareStock> stock;
    std::vector<SpareMovementRecord> movements;
    Date today;
};
[[nodiscard]] SchoolStrings school_strings_from(const SchoolFacts& facts, const Lives& lives,
                                                int horizon_days);

struct StringsFacts {
    HarpRecord harp;
    std::vector<StringLife> of_harp; ///< all that were ever on it
    std::vector<StringLife> on;
    std::vector<PlannedStringRecord> plan;
    std::vector<SpareStock> stock;
    Date today;
};
[[nodiscard]] StringsModel strings_from(const StringsFacts& facts, const Lives& lives,
                                        const SchoolStrings& school, int horizon_days);

/// Name under which a spare string stands in stock and order list: "3A gut 0.91 mm".
[[nodiscard]] std::string spare_name(StringPlace place, const StringMake& make);

/// Tension of every string of the plan; nothing when no place of the plan has length, diameter and material.
[[nodiscard]] std::optional<TensionModel> tension_from(const HarpRecord& harp,
                                                       const std::vector<PlannedStringRecord>& plan,
                                                       const MaterialTable& materials, double a4_hz,
                                                       const std::optional<TryGauge>& trial);

} // namespace harpkeep::dashboard
