// SPDX-License-Identifier: MIT
#include "reason/position_offsets.hpp"

#include "base/expects.hpp"

#include <cmath>

namespace harpkeep {

namespace {

double square(double x)
{
    return x * x;
}

void set_last_position(PositionOffsets& offsets, const StepError* lower, const StepError* upper,
                       const WholeStepError* whole)
{
    const double both = lower != nullptr && upper != nullptr
                            ? square(lower->uncertainty_cents) + square(upper->uncertainty_cents)
                            : 0.0;
    if (whole != nullptr) {
        offsets.cents[2] = whole->error_cents;
        offsets.covariance[2][2] = square(whole->uncertainty_cents);
    } else if (both > 0.0) {
        offsets.cents[2] = lower->error_cents + upper->error_cents;
        offsets.covariance[2][2] = both;
    }
    if (both > 0.0 && offsets.cents[2]) {
        // var(upper) = var(sharp) + var(natural) - 2 cov(natural, sharp)
        offsets.covariance[1][2] = offsets.covariance[2][1] =
            0.5 *
            (offsets.covariance[2][2] + square(lower->uncertainty_cents) - square(upper->uncertainty_cents));
    }
}

} // namespace

double PositionOffsets::uncertainty_cents(std::size_t semitones) const
{
    HARPKEEP_EXPECTS(semitones < 3);
    return std::sqrt(covariance[semitones][semitones]);
}

std::map<StringPlace, PositionOffsets> position_offsets(const HarpLayout& layout,
                                                        std::span<const StepError> steps,
                                                        std::span<const WholeStepError> whole_steps)
{
    std::map<std::pair<StringPlace, Step>, const StepError*> by_step;
    for (const auto& step : steps) by_step[{step.place, step.step}] = &step;
    std::map<StringPlace, const WholeStepError*> by_place;
    for (const auto& whole : whole_steps) by_place[whole.place] = &whole;
    const auto found = [](const auto& map, const auto& key) {
        const auto entry = map.find(key);
        return entry == map.end() ? nullptr : entry->second;
    };

    std::map<StringPlace, PositionOffsets> all;
    for (const auto& string : layout.strings) {
        auto& offsets = all[string.place];
        const auto* lower = found(by_step, std::pair(string.place, Step::lower));
        if (lower != nullptr) {
            offsets.cents[1] = lower->error_cents;
            offsets.covariance[1][1] = square(lower->uncertainty_cents);
        }
        set_last_position(offsets, lower, found(by_step, std::pair(string.place, Step::upper)),
                          found(by_place, string.place));
    }
    return all;
}

} // namespace harpkeep
