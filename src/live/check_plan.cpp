// SPDX-License-Identifier: MIT
#include "live/check_plan.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

namespace {

constexpr std::array<CheckWay, 6> all_ways{CheckWay::pass_by_pass,   CheckWay::string_by_string,
                                           CheckWay::pedal_by_pedal, CheckWay::some_strings,
                                           CheckWay::one_pedal,      CheckWay::one_octave};

bool has_position(HarpKind kind, const HarpString& string, Position position)
{
    const auto positions = positions_of(kind, string);
    return std::find(positions.begin(), positions.end(), position) != positions.end();
}

std::vector<Position> positions_of_kind(HarpKind kind)
{
    if (kind == HarpKind::pedal) return {Position::flat, Position::natural, Position::sharp};
    return {Position::open, Position::engaged};
}

/// All `strings` that have `position`, as one station.
CheckStation station_of(HarpKind kind, const std::vector<HarpString>& strings, Position position)
{
    CheckStation station;
    for (const HarpString& string : strings) {
        if (!has_position(kind, string, position)) continue;
        station.targets.push_back({string.place, position});
        station.setting[static_cast<std::size_t>(string.place.letter)] = position;
    }
    return station;
}

void add_passes(CheckPlan& plan, HarpKind kind, const std::vector<HarpString>& strings)
{
    for (const Position position : positions_of_kind(kind)) {
        auto station = station_of(kind, strings, position);
        if (!station.targets.empty()) plan.stations.push_back(std::move(station));
    }
}

void add_string_by_string(CheckPlan& plan, HarpKind kind, const std::vector<HarpString>& strings)
{
    for (const HarpString& string : strings) {
        const std::size_t first = plan.stations.size();
        add_passes(plan, kind, {string});
        if (kind == HarpKind::lever)
            for (std::size_t k = first; k < plan.stations.size(); ++k)
                plan.stations[k].single_string = string.place;
    }
}

void add_pedal_by_pedal(CheckPlan& plan, HarpKind kind, const std::vector<HarpString>& strings)
{
    for (const Letter letter : pedal_order) {
        std::vector<HarpString> of_letter;
        std::copy_if(strings.begin(), strings.end(), std::back_inserter(of_letter),
                     [&](const HarpString& string) { return string.place.letter == letter; });
        add_passes(plan, kind, of_letter);
    }
}

void add_closing(CheckPlan& plan, HarpKind kind, const std::vector<HarpString>& strings, int wanted)
{
    const auto count = std::min(static_cast<std::size_t>(std::max(wanted, 0)), strings.size());
    if (count == 0) return;
    std::vector<HarpString> chosen;
    // the middles of `count` equal parts of the range
    for (std::size_t k = 0; k < count; ++k)
        chosen.push_back(strings[(2 * k + 1) * strings.size() / (2 * count)]);
    auto station = station_of(kind, chosen, positions_of_kind(kind).front());
    station.closing = true;
    plan.stations.push_back(std::move(station));
}

Result<std::vector<HarpString>> strings_asked_for(const HarpLayout& layout, const CheckPlanRequest& request)
{
    if (request.way == CheckWay::one_pedal && !request.letter)
        return failure(ErrorCode::invalid_argument, "say which pedal to check: one of D C B E F G A");
    if (request.way == CheckWay::one_octave && !request.harp_octave)
        return failure(ErrorCode::invalid_argument,
                       "say which octave to check: 0 at the top to 7 in the bass");
    if (request.way == CheckWay::some_strings && request.strings.empty())
        return failure(ErrorCode::invalid_argument, "say which strings to check, for example 4C 3F");
    for (const StringPlace place : request.strings)
        if (!find_string(layout, place))
            return failure(ErrorCode::invalid_argument,
                           fmt::format("{} is no string of this harp", harp_name(place)));

    const auto wanted = [&](const HarpString& string) {
        switch (request.way) {
        case CheckWay::one_pedal:
            return string.place.letter == *request.letter;
        case CheckWay::one_octave:
            return string.place.harp_octave() == *request.harp_octave;
        case CheckWay::some_strings:
            return std::find(request.strings.begin(), request.strings.end(), string.place) !=
                   request.strings.end();
        default:
            return true;
        }
    };
    std::vector<HarpString> strings;
    std::copy_if(layout.strings.begin(), layout.strings.end(), std::back_inserter(strings), wanted);
    if (strings.empty())
        return failure(ErrorCode::invalid_argument,
                       request.way == CheckWay::one_octave
                           ? fmt::format("this harp has no string in octave {}", *request.harp_octave)
                           : "this harp has no string with that letter");
    if (request.from_top) std::reverse(strings.begin(), strings.end());
    return strings;
}

} // namespace

std::string_view way_name(CheckWay way)
{
    constexpr std::array<std::string_view, 6> names{
        "pass-by-pass", "string-by-string", "pedal-by-pedal", "strings", "pedal", "octave"};
    return names[static_cast<std::size_t>(way)];
}

std::optional<CheckWay> way_from_name(std::string_view name)
{
    for (const CheckWay way : all_ways)
        if (way_name(way) == name) return way;
    return std::nullopt;
}

std::size_t CheckPlan::target_count() const
{
    std::size_t count = 0;
    for (const CheckStation& station : stations) count += station.targets.size();
    return count;
}

Result<CheckPlan> make_check_plan(const HarpLayout& layout, const CheckPlanRequest& request)
{
    const auto strings = strings_asked_for(layout, request);
    if (!strings) return failure(strings.error());
    CheckPlan plan;
    if (request.way == CheckWay::string_by_string)
        add_string_by_string(plan, layout.kind, *strings);
    else if (request.way == CheckWay::pedal_by_pedal)
        add_pedal_by_pedal(plan, layout.kind, *strings);
    else
        add_passes(plan, layout.kind, *strings);
    add_closing(plan, layout.kind, *strings, request.closing_strings);
    HARPKEEP_EXPECTS(!plan.stations.empty());
    return plan;
}

} // namespace harpkeep
