// SPDX-License-Identifier: MIT
#include "measure/check_assembly.hpp"

#include "measure/step_measurement.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr double wrong_pitch_cents = 60.0;  // nearer to another semitone than to its own
constexpr double repeats_agree_cents = 4.0; // besides their uncertainty; plucks of one string differ by less
constexpr double pedal_share = 0.6; // of a letter's strings a semitone off: the pedal, not the strings

void add_doubt(PluckMeasurement& pluck, Doubt doubt)
{
    if (std::find(pluck.doubts.begin(), pluck.doubts.end(), doubt) == pluck.doubts.end())
        pluck.doubts.push_back(doubt);
}

/// The pluck as measured at the pitch that the placement chose.
PluckMeasurement chosen_pitch(const PluckMeasurement& pluck, std::size_t rival)
{
    PluckMeasurement chosen = rival == 0 ? pluck : pluck.rivals[rival - 1];
    chosen.rivals.clear();
    return chosen;
}

std::vector<Reading*> readings_at(std::vector<Reading>& readings, StringPlace place, Position position)
{
    std::vector<Reading*> found;
    for (auto& reading : readings)
        if (reading.place == place && reading.position == position) found.push_back(&reading);
    return found;
}

/// Repeats of one string and position that disagree: with three or more the odd ones are doubted, with two
/// both.
void doubt_disagreeing_repeats(const std::vector<Reading*>& repeats)
{
    std::vector<Reading*> trusted;
    for (auto* reading : repeats)
        if (reading->pluck.trusted()) trusted.push_back(reading);
    if (trusted.size() < 2) return;
    std::vector<double> pitches;
    for (const auto* reading : trusted) pitches.push_back(reading->pluck.frequency_hz);
    std::sort(pitches.begin(), pitches.end());
    const double median = trusted.size() % 2
                              ? pitches[pitches.size() / 2]
                              : std::sqrt(pitches[pitches.size() / 2 - 1] * pitches[pitches.size() / 2]);
    for (auto* reading : trusted) {
        const double off = std::abs(interval(Hertz{median}, Hertz{reading->pluck.frequency_hz}).value());
        const double allowed = repeats_agree_cents + 3.0 * reading->pluck.uncertainty_cents;
        if (off > (trusted.size() == 2 ? 0.5 * allowed : allowed))
            add_doubt(reading->pluck, Doubt::wrong_pitch);
    }
}

/// A pedal or lever left in another position moves all strings of its letter by a semitone.
void remark_on_pedals(const HarpLayout& layout, CheckResult& check)
{
    for (const Position position : all_positions)
        for (const Letter letter : all_letters) {
            int strings = 0, low = 0, high = 0;
            for (const auto& reading : check.readings) {
                if (reading.position != position || reading.place.letter != letter) continue;
                ++strings;
                const auto& doubts = reading.pluck.doubts;
                if (std::find(doubts.begin(), doubts.end(), Doubt::wrong_pitch) == doubts.end()) continue;
                const auto* string = find_string(layout, reading.place);
                const double expected_key = 12.0 * (reading.place.scientific_octave + 1) +
                                            semitones_above_c(letter) + alteration_of(*string, position);
                const double off =
                    100.0 *
                    (69.0 + 12.0 * std::log2(reading.pluck.frequency_hz / check.a4_hz) - expected_key);
                (off < 0.0 ? low : high) += 1;
            }
            if (strings < 3 || std::max(low, high) < pedal_share * strings) continue;
            check.remarks.push_back(fmt::format("The {} strings sound a semitone too {} where {} was "
                                                "expected: was the {} {} in that position? "
                                                "They are not used; sound them again.",
                                                letter_name(letter), low > high ? "low" : "high",
                                                position_name(position), letter_name(letter),
                                                layout.kind == HarpKind::lever ? "lever" : "pedal"));
        }
}

/// Whether it is sure that this string was sounded in this position, however well it was measured.
bool surely_sounded(const Reading& reading)
{
    const auto& doubts = reading.pluck.doubts;
    return std::none_of(doubts.begin(), doubts.end(), [](Doubt doubt) {
        return doubt == Doubt::ambiguous_place || doubt == Doubt::wrong_pitch;
    });
}

void name_missing(const HarpLayout& layout, CheckResult& check)
{
    std::array<int, all_positions.size()> heard{};
    for (const auto& reading : check.readings) ++heard[static_cast<std::size_t>(reading.position)];
    std::array<bool, all_positions.size()> told{};
    for (const auto& string : layout.strings)
        for (const Position position : positions_of(layout.kind, string)) {
            const auto index = static_cast<std::size_t>(position);
            if (heard[index] == 0) {
                if (!told[index])
                    check.remarks.push_back(
                        fmt::format("No string was sounded in {}.", position_name(position)));
                told[index] = true;
                continue;
            }
            const auto readings = readings_at(check.readings, string.place, position);
            if (std::none_of(readings.begin(), readings.end(),
                             [](const Reading* reading) { return surely_sounded(*reading); }))
                check.missing.push_back({string.place, position});
        }
}

std::vector<PluckMeasurement> trusted_plucks(CheckResult& check, StringPlace place, Position position)
{
    std::vector<PluckMeasurement> plucks;
    for (const auto* reading : readings_at(check.readings, place, position))
        if (reading->pluck.trusted()) plucks.push_back(reading->pluck);
    return plucks;
}

} // namespace

void measure_steps(const HarpLayout& layout, CheckResult& check)
{
    check.steps.clear();
    check.whole_steps.clear();
    for (const auto& string : layout.strings) {
        for (const Step step : steps_of(layout.kind, string)) {
            const auto [low, high] = positions_of_step(layout.kind, step);
            const auto size = measure_step(trusted_plucks(check, string.place, low),
                                           trusted_plucks(check, string.place, high));
            if (!size) continue;
            check.steps.push_back({string.place, step, size->size_cents - 100.0, size->uncertainty_cents,
                                   size->degrees_of_freedom});
        }
        if (steps_of(layout.kind, string).size() < 2) continue;
        const auto whole = measure_step(trusted_plucks(check, string.place, Position::flat),
                                        trusted_plucks(check, string.place, Position::sharp));
        if (whole)
            check.whole_steps.push_back({string.place, whole->size_cents - 200.0, whole->uncertainty_cents});
    }
}

CheckResult assemble_check(const HarpLayout& layout, std::span<const HeardPluck> plucks,
                           std::vector<IgnoredSound> ignored, const CheckSettings& settings)
{
    CheckResult check{.a4_hz = settings.a4.value()};
    check.ignored = std::move(ignored);
    const PluckPlacement placement = place_plucks(layout, settings.a4, plucks);
    for (const auto& placed : placement.placed) {
        Reading reading{.place = layout.strings[placed.string].place,
                        .position = placed.position,
                        .file_index = plucks[placed.pluck].file_index,
                        .pluck = chosen_pitch(plucks[placed.pluck].measurement, placed.rival)};
        if (std::abs(placed.off_cents) > wrong_pitch_cents) add_doubt(reading.pluck, Doubt::wrong_pitch);
        if (placed.ambiguous) add_doubt(reading.pluck, Doubt::ambiguous_place);
        check.readings.push_back(std::move(reading));
    }
    for (const std::size_t n : placement.unplaced)
        check.ignored.push_back({plucks[n].file_index, plucks[n].measurement.start_s,
                                 "fits no string of this harp in this order"});
    std::stable_sort(check.ignored.begin(), check.ignored.end(), [](const auto& a, const auto& b) {
        return std::pair{a.file_index, a.start_s} < std::pair{b.file_index, b.start_s};
    });
    for (const auto& string : layout.strings)
        for (const Position position : positions_of(layout.kind, string))
            doubt_disagreeing_repeats(readings_at(check.readings, string.place, position));
    measure_steps(layout, check);
    remark_on_pedals(layout, check);
    name_missing(layout, check);
    if (std::abs(placement.harp_offset_cents) > 15.0)
        check.remarks.push_back(fmt::format("The harp as a whole is {:.0f} cents {} of A4 = {:.1f} Hz.",
                                            std::abs(placement.harp_offset_cents),
                                            placement.harp_offset_cents < 0.0 ? "flat" : "sharp",
                                            check.a4_hz));
    return check;
}

} // namespace harpkeep
