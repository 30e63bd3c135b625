// SPDX-License-Identifier: MIT
#include "synth/synthetic_harp.hpp"

#include "base/expects.hpp"
#include "harp/expected_pitch.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

/// Cents of a position above the open string.
double raise_cents(const SyntheticHarpString& string, Position position)
{
    const int semitones = semitones_above_open(position);
    double cents = 100.0 * semitones;
    if (semitones >= 1) cents += string.lower_error_cents;
    if (semitones >= 2) cents += string.upper_error_cents;
    return cents;
}

double open_frequency_hz(const SyntheticHarp& harp, std::size_t string_index)
{
    const HarpString& string = harp.layout.strings[string_index];
    return expected_pitch(string, positions_of(harp.layout.kind, string).front(), harp.a4).value() *
           std::exp2(harp.strings[string_index].open_offset_cents / 1200.0);
}

/// F so that the first partial, its deviation included, comes out at `f1_hz`.
void tune(SyntheticString& string, double f1_hz)
{
    string.ideal_frequency_hz = 1.0;
    string.ideal_frequency_hz = f1_hz / partial_frequency_hz(string, 1);
}

} // namespace

SyntheticHarp make_synthetic_harp(const HarpLayout& layout, const SyntheticHarpSettings& settings)
{
    RandomSource random(settings.seed);
    SyntheticHarp harp{layout, settings.a4, {}};
    const auto step_error = [&] {
        return std::clamp(settings.step_error_sd_cents * random.normal(), -settings.largest_step_error_cents,
                          settings.largest_step_error_cents);
    };
    for (std::size_t i = 0; i < layout.strings.size(); ++i) {
        harp.strings.push_back({});
        SyntheticHarpString& string = harp.strings.back();
        string.open_offset_cents =
            settings.all_strings_cents + settings.open_offset_sd_cents * random.normal();
        string.lower_error_cents = step_error();
        string.upper_error_cents = step_error();
        const double f1_hz = open_frequency_hz(harp, i);
        string.open = generic_string(f1_hz);
        string.open.inharmonicity *= std::exp(settings.curve_sd * random.normal());
        string.open.decay_t60_s *= std::exp(settings.curve_sd * random.normal());
        for (int k = 0; settings.partial_deviation_sd_cents > 0.0 && k < string.open.partial_count; ++k)
            string.open.partial_deviations_cents.push_back(settings.partial_deviation_sd_cents *
                                                           random.normal());
        tune(string.open, f1_hz);
    }
    return harp;
}

void set_open_offset(SyntheticHarp& harp, std::size_t string_index, double open_offset_cents)
{
    HARPKEEP_EXPECTS(string_index < harp.strings.size());
    harp.strings[string_index].open_offset_cents = open_offset_cents;
    tune(harp.strings[string_index].open, open_frequency_hz(harp, string_index));
}

double true_frequency_hz(const SyntheticHarp& harp, std::size_t string_index, Position position)
{
    HARPKEEP_EXPECTS(string_index < harp.strings.size());
    return open_frequency_hz(harp, string_index) *
           std::exp2(raise_cents(harp.strings[string_index], position) / 1200.0);
}

double true_step_error_cents(const SyntheticHarp& harp, std::size_t string_index, Step step)
{
    HARPKEEP_EXPECTS(string_index < harp.strings.size());
    const SyntheticHarpString& string = harp.strings[string_index];
    return step == Step::lower ? string.lower_error_cents : string.upper_error_cents;
}

SyntheticString string_in_position(const SyntheticHarp& harp, std::size_t string_index, Position position)
{
    HARPKEEP_EXPECTS(string_index < harp.strings.size());
    SyntheticString string = harp.strings[string_index].open;
    const double ratio = std::exp2(raise_cents(harp.strings[string_index], position) / 1200.0);
    string.inharmonicity *= ratio * ratio;
    string.decay_t60_s /= ratio;
    tune(string, true_frequency_hz(harp, string_index, position));
    return string;
}

std::optional<std::size_t> string_index_of(const HarpLayout& layout, StringPlace place)
{
    for (std::size_t i = 0; i < layout.strings.size(); ++i)
        if (layout.strings[i].place == place) return i;
    return std::nullopt;
}

} // namespace harpkeep
