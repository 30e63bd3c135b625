// SPDX-License-Identifier: MIT
#include "tests/support/planted_harp.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace harpkeep::test {

namespace {

void spread_over_steps(PlantedFault& fault, double cents, Dice& dice)
{
    switch (dice.whole(0, 3)) {
    case 0:
        fault.lower_cents = cents;
        break;
    case 1:
        fault.upper_cents = cents;
        break;
    case 2:
        fault.lower_cents = fault.upper_cents = cents;
        break;
    default:
        fault.lower_cents = cents;
        fault.upper_cents = -cents;
    }
}

void plant_pedals(PlantedHarp& harp, const PlantingSettings& settings, Dice& dice)
{
    std::set<Letter> taken;
    const int count = dice.whole(settings.fewest_pedals, settings.most_pedals);
    while (static_cast<int>(taken.size()) < count) {
        const auto letter = static_cast<Letter>(dice.whole(0, 6));
        if (!taken.insert(letter).second) continue;
        PlantedFault fault{.pedal = letter};
        spread_over_steps(
            fault, dice.sign() * dice.uniform(settings.least_pedal_cents, settings.greatest_pedal_cents),
            dice);
        harp.faults.push_back(fault);
    }
}

void plant_strings(PlantedHarp& harp, const PlantingSettings& settings, Dice& dice)
{
    std::set<StringPlace> taken;
    const int count = dice.whole(settings.fewest_strings, settings.most_strings);
    while (static_cast<int>(taken.size()) < count) {
        const auto index = dice.whole(0, static_cast<int>(harp.layout.strings.size()) - 1);
        const auto& string = harp.layout.strings[static_cast<std::size_t>(index)];
        if (!string.has_natural_disc || !taken.insert(string.place).second) continue;
        PlantedFault fault{.place = string.place};
        spread_over_steps(
            fault, dice.sign() * dice.uniform(settings.least_string_cents, settings.greatest_string_cents),
            dice);
        harp.faults.push_back(fault);
    }
}

/// A value of standard deviation 1.
double scatter_value(const PlantingSettings& settings, Dice& dice)
{
    if (!settings.heavy_tails) return dice.normal();
    return std::sqrt(0.5) * stats::student_quantile(dice.uniform(), 4.0); // its variance is 4 / (4 - 2)
}

/// Errors of both steps of a string: faults, slope and scatter.
std::array<double, 2> true_steps(const PlantedHarp& harp, const HarpString& string, double along_neck,
                                 const PlantingSettings& settings, Dice& dice)
{
    std::array<double, 2> errors{0.5 * along_neck * harp.slope_cents, 0.5 * along_neck * harp.slope_cents};
    for (const auto& fault : harp.faults) {
        if (fault.pedal && *fault.pedal != string.place.letter) continue;
        if (fault.place && *fault.place != string.place) continue;
        errors[0] += fault.lower_cents;
        errors[1] += fault.upper_cents;
    }
    // What scatter is left for the harp once measuring has its share.
    const double measured = std::sqrt(2.0) * settings.measuring_cents;
    const double own =
        std::sqrt(std::max(0.0, settings.scatter_cents * settings.scatter_cents - measured * measured));
    if (settings.scatter_in_positions) {
        const double flat = scatter_value(settings, dice);
        const double natural = scatter_value(settings, dice);
        const double sharp = scatter_value(settings, dice);
        errors[0] += own * std::sqrt(0.5) * (natural - flat);
        errors[1] += own * std::sqrt(0.5) * (sharp - natural);
    } else {
        errors[0] += own * scatter_value(settings, dice);
        errors[1] += own * scatter_value(settings, dice);
    }
    return errors;
}

void sound(PlantedHarp& harp, StringPlace place, const std::array<double, 2>& errors,
           const PlantingSettings& settings, Dice& dice)
{
    std::array<double, 3> readings{0.0, errors[0], errors[0] + errors[1]}; // cents above the nominal
    std::array<bool, 3> present{};
    for (std::size_t i = 0; i < 3; ++i) {
        readings[i] += settings.measuring_cents * dice.normal();
        present[i] = !dice.chance(settings.missing_share);
    }
    const double uncertainty = std::sqrt(2.0) * settings.measuring_cents;
    const auto degrees = 20.0;
    if (present[0] && present[1])
        harp.steps.push_back({place, Step::lower, readings[1] - readings[0], uncertainty, degrees});
    if (present[1] && present[2])
        harp.steps.push_back({place, Step::upper, readings[2] - readings[1], uncertainty, degrees});
    if (present[0] && present[2]) harp.whole_steps.push_back({place, readings[2] - readings[0], uncertainty});
}

} // namespace

PlantedHarp plant(const PlantingSettings& settings, Dice& dice)
{
    PlantedHarp harp{.layout = make_layout({.string_count = settings.string_count}).value(),
                     .slope_cents = settings.slope_cents};
    plant_pedals(harp, settings, dice);
    plant_strings(harp, settings, dice);
    const double lowest = harp.layout.strings.front().place.diatonic_index();
    const double highest = harp.layout.strings.back().place.diatonic_index();
    for (const auto& string : harp.layout.strings) {
        if (!string.has_natural_disc) continue;
        const double along = 2.0 * (string.place.diatonic_index() - lowest) / (highest - lowest) - 1.0;
        sound(harp, string.place, true_steps(harp, string, along, settings, dice), settings, dice);
    }
    return harp;
}

} // namespace harpkeep::test
