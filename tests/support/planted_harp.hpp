// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "stats/quantiles.hpp"

#include <cstdint>
#include <random>
#include <vector>

namespace harpkeep::test {

/// Random numbers that are the same on every machine: std::normal_distribution is not.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}
    double uniform() { return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1.0p-53; }
    double uniform(double from, double to) { return from + (to - from) * uniform(); }
    double normal() { return stats::normal_quantile(uniform()); }
    int whole(int from, int to) { return from + static_cast<int>(uniform() * (to - from + 1)); }
    bool chance(double probability) { return uniform() < probability; }
    double sign() { return chance(0.5) ? 1.0 : -1.0; }

  private:
    std::mt19937_64 engine_;
};

/// A fault put into a harp: cents in the lower and the upper step, 0 where it has none.
struct PlantedFault {
    std::optional<Letter> pedal;
    std::optional<StringPlace> place;
    double lower_cents = 0.0;
    double upper_cents = 0.0;
};

/// A harp with known faults, and what a check of it would give.
struct PlantedHarp {
    HarpLayout layout;
    std::vector<PlantedFault> faults;
    double slope_cents = 0.0;
    std::vector<StepError> steps;
    std::vector<WholeStepError> whole_steps;
};

struct PlantingSettings {
    int string_count = 47;
    int fewest_pedals = 0, most_pedals = 0;
    double least_pedal_cents = 3.0, greatest_pedal_cents = 8.0;
    double slope_cents = 0.0; ///< from the lowest string to the highest, in both steps
    int fewest_strings = 0, most_strings = 0;
    double least_string_cents = 8.0, greatest_string_cents = 16.0;
    double scatter_cents = 0.8;   ///< of each step, measuring included
    double measuring_cents = 0.2; ///< stated standard uncertainty of a reading, part of the scatter
    double missing_share = 0.1;   ///< of readings: a missing natural takes both steps
    bool heavy_tails = false; ///< scatter of Student's kind with four degrees of freedom instead of normal
    bool scatter_in_positions = false; ///< scatter of positions: the steps of a string share the natural's
};

/// Makes a harp. A pedal or string is off in the lower step, the upper, both alike, or has its natural off
/// (one step wide by as much as the other is narrow), each as often.
[[nodiscard]] PlantedHarp plant(const PlantingSettings& settings, Dice& dice);

} // namespace harpkeep::test
