// SPDX-License-Identifier: MIT
#include "harp/harp_layout.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr StringPlace top_of_concert_harp{Letter::G, 7};       // 0G
constexpr StringPlace top_of_smaller_pedal_harp{Letter::E, 7}; // 1E
constexpr StringPlace top_of_lever_harp{Letter::C, 7};         // 1C
constexpr StringPlace top_of_smaller_lever_harp{Letter::A, 6}; // 1A
constexpr int most_strings = 60;

struct Range {
    StringPlace lowest;
    StringPlace highest;
};

StringPlace lowest_of(StringPlace highest, int string_count)
{
    return place_from_diatonic_index(highest.diatonic_index() - string_count + 1);
}

Result<Range> range_of(const LayoutRequest& request)
{
    const int count = request.string_count;
    if (request.lowest && request.highest) return Range{*request.lowest, *request.highest};
    if (count < 1 || count > most_strings)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("a harp of {} strings cannot be kept; give 1 to {} strings", count, most_strings));
    if (request.lowest)
        return Range{*request.lowest,
                     place_from_diatonic_index(request.lowest->diatonic_index() + count - 1)};

    // Common practice, no source: smaller pedal harps end on 1E, lever harps on 1C or, with fewer strings,
    // 1A.
    StringPlace highest = count <= 44 ? top_of_smaller_pedal_harp : top_of_concert_harp;
    if (request.kind == HarpKind::lever)
        highest = count >= 35 ? top_of_lever_harp : top_of_smaller_lever_harp;
    if (request.highest) highest = *request.highest;
    if (highest.diatonic_index() - count + 1 < 0)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format(
                "{} strings down from {} reach below what can be heard; give fewer strings or a higher top",
                count, harp_name(highest)));
    return Range{lowest_of(highest, count), highest};
}

bool has_discs(const LayoutRequest& request, StringPlace place)
{
    if (request.without_discs)
        return std::find(request.without_discs->begin(), request.without_discs->end(), place) ==
               request.without_discs->end();
    const bool lowest_two =
        place.scientific_octave == 1 && (place.letter == Letter::C || place.letter == Letter::D);
    return !(request.kind == HarpKind::pedal && lowest_two);
}

} // namespace

std::string_view kind_name(HarpKind kind)
{
    constexpr std::array<std::string_view, 3> names{"pedal", "single", "lever"};
    return names[static_cast<std::size_t>(kind)];
}

std::optional<HarpKind> kind_from_name(std::string_view name)
{
    for (const HarpKind kind : {HarpKind::pedal, HarpKind::single, HarpKind::lever})
        if (kind_name(kind) == name) return kind;
    return std::nullopt;
}

std::string_view open_tuning_name(OpenTuning tuning)
{
    constexpr std::array<std::string_view, 4> names{"e-flat", "c", "f", "c-flat"};
    return names[static_cast<std::size_t>(tuning)];
}

std::optional<OpenTuning> open_tuning_from_name(std::string_view name)
{
    for (const OpenTuning tuning :
         {OpenTuning::e_flat_major, OpenTuning::c_major, OpenTuning::f_major, OpenTuning::c_flat_major})
        if (open_tuning_name(tuning) == name) return tuning;
    return std::nullopt;
}

std::array<int, 7> open_alterations(OpenTuning tuning)
{
    switch (tuning) { // C D E F G A B
    case OpenTuning::e_flat_major:
        return {0, 0, -1, 0, 0, -1, -1};
    case OpenTuning::f_major:
        return {0, 0, 0, 0, 0, 0, -1};
    case OpenTuning::c_flat_major:
        return {-1, -1, -1, -1, -1, -1, -1};
    case OpenTuning::c_major:
        break;
    }
    return {};
}

int usual_string_count(HarpKind kind)
{
    return kind == HarpKind::lever ? 34 : (kind == HarpKind::single ? 43 : 47);
}

Result<HarpLayout> make_layout(const LayoutRequest& request)
{
    const auto range = range_of(request);
    if (!range) return failure(range.error());
    const int lowest = range->lowest.diatonic_index();
    const int highest = range->highest.diatonic_index();
    if (highest < lowest)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("the lowest string {} lies above the highest {}; swap them",
                                   harp_name(range->lowest), harp_name(range->highest)));
    if (highest - lowest + 1 > most_strings)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("{} to {} are {} strings; at most {} can be kept",
                                   harp_name(range->lowest), harp_name(range->highest), highest - lowest + 1,
                                   most_strings));
    // Common practice: pedal harps are tuned in C-flat major with all pedals up, the others in E-flat major.
    if (request.kind == HarpKind::pedal && request.tuning && *request.tuning != OpenTuning::c_flat_major)
        return failure(ErrorCode::invalid_argument,
                       "the open strings of a pedal harp are flats (all pedals up); leave the tuning out");
    const auto tuning = request.tuning.value_or(request.kind == HarpKind::pedal ? OpenTuning::c_flat_major
                                                                                : OpenTuning::e_flat_major);
    const auto alterations = open_alterations(tuning);

    HarpLayout layout{request.kind, {}};
    for (int index = lowest; index <= highest; ++index) {
        const StringPlace place = place_from_diatonic_index(index);
        const bool discs = has_discs(request, place);
        layout.strings.push_back({.place = place,
                                  .open_alteration = alterations[static_cast<std::size_t>(place.letter)],
                                  .has_natural_disc = discs,
                                  .has_sharp_disc = discs && request.kind == HarpKind::pedal});
    }
    if (request.without_discs)
        for (const StringPlace place : *request.without_discs)
            if (!find_string(layout, place))
                return failure(ErrorCode::invalid_argument,
                               fmt::format("{} is no string of this harp ({} to {})", harp_name(place),
                                           harp_name(range->lowest), harp_name(range->highest)));
    return layout;
}

const HarpString* find_string(const HarpLayout& layout, StringPlace place)
{
    const auto found = std::find_if(layout.strings.begin(), layout.strings.end(),
                                    [&](const HarpString& string) { return string.place == place; });
    return found == layout.strings.end() ? nullptr : &*found;
}

std::vector<Position> positions_of(HarpKind kind, const HarpString& string)
{
    if (kind != HarpKind::pedal)
        return string.has_natural_disc ? std::vector{Position::open, Position::engaged}
                                       : std::vector{Position::open};
    std::vector<Position> positions{Position::flat};
    if (string.has_natural_disc) positions.push_back(Position::natural);
    if (string.has_natural_disc && string.has_sharp_disc) positions.push_back(Position::sharp);
    return positions;
}

int alteration_of(const HarpString& string, Position position)
{
    return string.open_alteration + semitones_above_open(position);
}

std::vector<Step> steps_of(HarpKind kind, const HarpString& string)
{
    const auto count = positions_of(kind, string).size();
    if (count == 3) return {Step::lower, Step::upper};
    if (count == 2) return {Step::lower};
    return {};
}

std::array<Position, 2> positions_of_step(HarpKind kind, Step step)
{
    if (kind != HarpKind::pedal) return {Position::open, Position::engaged};
    if (step == Step::lower) return {Position::flat, Position::natural};
    return {Position::natural, Position::sharp};
}

} // namespace harpkeep
