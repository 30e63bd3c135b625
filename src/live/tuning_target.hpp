// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/harp_layout.hpp"
#include "units/quantity.hpp"

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

namespace harpkeep {

/// How the pedals (or the only discs, or the levers) stand while a harp is tuned.
enum class TunedIn {
    open,     ///< all pedals up or all levers open: flats on a pedal harp
    naturals, ///< pedal harps: all pedals in the middle; strings without discs stay flat
};

[[nodiscard]] std::string_view tuned_in_name(TunedIn tuned_in);
[[nodiscard]] std::optional<TunedIn> tuned_in_from_name(std::string_view name);

/// A string that is to lie beside its place in the temperament, so that a fault of its discs is shared out.
struct StringOffset {
    StringPlace place;
    Cents offset;
};

/// What a harp is tuned to.
struct TuningRequest {
    Hertz a4{440.0};
    TunedIn tuned_in = TunedIn::open;
    /// Offset of a key (A4 = 69) from equal temperament, A being 0; empty: equal temperament.
    std::function<Cents(int key)> temperament;
    std::vector<StringOffset> offsets; ///< added to the temperament
};

inline constexpr Hertz lowest_a4{392.0};
inline constexpr Hertz highest_a4{466.0};

/// Where one string should sound.
struct TuningTarget {
    StringPlace place;
    Position position = Position::flat;
    Hertz frequency;
};

/// The targets of all strings, lowest first.
///
/// Returns  invalid_argument when A4 lies outside 392 to 466 Hz, when an offset names no string of this harp
///          or is larger than 50 cents (250 for a string without discs or lever), or when a harp without
///          pedals is to be tuned in naturals
[[nodiscard]] Result<std::vector<TuningTarget>> tuning_targets(const HarpLayout& layout,
                                                               const TuningRequest& request);

/// A4 from a reference tone: any A from a fork, an oboe or another instrument.
///
/// Given      frequency > 0
/// Returns    the tone moved by octaves into 392 to 466 Hz; nothing when it does not fall there, that is when
///            it is no A in any usual pitch
[[nodiscard]] std::optional<Hertz> a4_from_tone(Hertz frequency);

} // namespace harpkeep
