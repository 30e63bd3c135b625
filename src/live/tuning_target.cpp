// SPDX-License-Identifier: MIT
#include "live/tuning_target.hpp"

#include "base/expects.hpp"
#include "harp/expected_pitch.hpp"
#include "units/interval.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

constexpr Cents largest_offset{50.0}; // beyond it the next semitone is nearer
// A string without discs is tuned by hand to the note that a piece needs.
constexpr Cents largest_offset_by_hand{250.0};

Position position_tuned(const HarpLayout& layout, const HarpString& string, TunedIn tuned_in)
{
    const auto positions = positions_of(layout.kind, string);
    return tuned_in == TunedIn::naturals && positions.size() > 1 ? positions[1] : positions[0];
}

} // namespace

std::string_view tuned_in_name(TunedIn tuned_in)
{
    return tuned_in == TunedIn::open ? "open" : "naturals";
}

std::optional<TunedIn> tuned_in_from_name(std::string_view name)
{
    if (name == "open" || name == "flats") return TunedIn::open;
    if (name == "naturals") return TunedIn::naturals;
    return std::nullopt;
}

Result<std::vector<TuningTarget>> tuning_targets(const HarpLayout& layout, const TuningRequest& request)
{
    if (request.a4 < lowest_a4 || request.a4 > highest_a4)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("A4 at {:.1f} Hz is outside what harps are tuned to; give {:.0f} to {:.0f} Hz",
                        request.a4.value(), lowest_a4.value(), highest_a4.value()));
    if (request.tuned_in == TunedIn::naturals && layout.kind != HarpKind::pedal)
        return failure(ErrorCode::invalid_argument,
                       "only a pedal harp can be tuned in naturals; leave it out to tune "
                       "the open strings");
    for (const StringOffset& offset : request.offsets) {
        const HarpString* string = find_string(layout, offset.place);
        if (!string)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("{} is no string of this harp", harp_name(offset.place)));
        const Cents largest =
            positions_of(layout.kind, *string).size() > 1 ? largest_offset : largest_offset_by_hand;
        if (std::abs(offset.offset.value()) > largest.value())
            return failure(ErrorCode::invalid_argument,
                           fmt::format("an offset of {:.0f} cents for {} is more than {:.0f} cents",
                                       offset.offset.value(), harp_name(offset.place), largest.value()));
    }
    std::vector<TuningTarget> targets;
    for (const HarpString& string : layout.strings) {
        const Position position = position_tuned(layout, string, request.tuned_in);
        const int key = key_number(string.place, alteration_of(string, position));
        Cents offset = request.temperament ? request.temperament(key) : Cents{0.0};
        for (const StringOffset& own : request.offsets)
            if (own.place == string.place) offset += own.offset;
        targets.push_back({string.place, position, raised(equal_temperament(key, request.a4), offset)});
    }
    return targets;
}

std::optional<Hertz> a4_from_tone(Hertz frequency)
{
    HARPKEEP_EXPECTS(frequency.value() > 0.0);
    double folded_hz = frequency.value();
    while (folded_hz > highest_a4.value()) folded_hz /= 2.0;
    while (folded_hz < lowest_a4.value()) folded_hz *= 2.0;
    if (folded_hz > highest_a4.value()) return std::nullopt;
    return Hertz{folded_hz};
}

} // namespace harpkeep
