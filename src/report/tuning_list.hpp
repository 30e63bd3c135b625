// SPDX-License-Identifier: MIT
#pragma once

#include "reason/tune_around.hpp"
#include "records/harp_record.hpp"
#include "report/document.hpp"
#include "units/moment.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::report {

/// What a tuning list is made from.
struct TuningListInput {
    HarpRecord harp;
    Date today;
    std::string occasion; ///< "Spring concert, 2027-03-14"; may be empty
    double a4_hz = 440.0;
    Temperament temperament = all_temperaments().front();
    std::vector<UsedSetting> settings; ///< of the pieces; may be empty
    /// Tuning around the steps of a check; nothing: tune to the temperament as it is.
    std::optional<TuneAroundResult> around;
    std::optional<Moment> check_taken;
};

/// A list to tune by before a concert: each open string with its frequency, boxes to tick.
[[nodiscard]] Document tuning_list(const TuningListInput& input);

/// The open strings of a harp at their pitches in a temperament, lowest first.
[[nodiscard]] std::vector<TunedString> tuned_to(const HarpLayout& layout, const Temperament& temperament,
                                                double a4_hz);

} // namespace harpkeep::report
