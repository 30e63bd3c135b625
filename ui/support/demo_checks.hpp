// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "synth/synthetic_harp.hpp"

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

namespace harpkeep::ui {

/// A step that went off at once.
struct DemoFault {
    int since_day = 0;
    double cents = 0.0;
};

/// What an invented harp does over the years, by day since 1970-01-01.
struct DemoWear {
    std::vector<int> visit_days;   ///< each sets all steps anew
    Letter worn_pedal = Letter::F; ///< its lower steps drift most
    double worn_pedal_cents_per_year = 0.0;
    std::map<std::pair<StringPlace, Step>, DemoFault> faults;
    std::uint64_t seed = 1;
};

/// The regulation of an invented harp: levels, trends and a season of each step from a fixed seed.
///
/// Notes  Only the harp is invented: what a check finds in it is measured from its partials as that of any
/// other.
class DemoRegulation {
  public:
    DemoRegulation(HarpLayout layout, DemoWear wear);

    [[nodiscard]] double step_error_cents(std::size_t string_index, Step step, int day) const;

    /// The harp as it stands on a day, to be sounded.
    [[nodiscard]] SyntheticHarp harp_on(int day) const;

    /// A check as a careful player makes it: a few readings in doubt, now and then a string forgotten.
    [[nodiscard]] CheckResult check_on(int day) const;

  private:
    struct StepCourse {
        std::vector<double> level_cents; ///< before the first visit, after it, after the second, ...
        double trend_cents_per_year = 0.0;
        double season_cents = 0.0;
    };
    [[nodiscard]] PluckMeasurement pluck(const SyntheticHarp& harp, std::size_t string_index,
                                         Position position, std::uint64_t seed) const;

    HarpLayout layout_;
    DemoWear wear_;
    std::map<std::pair<StringPlace, Step>, StepCourse> courses_;
};

} // namespace harpkeep::ui
