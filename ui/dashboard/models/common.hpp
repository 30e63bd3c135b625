// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "harp/position.hpp"
#include "harp/string_place.hpp"

#include <chrono>
#include <optional>
#include <string>

namespace harpkeep::dashboard {

/// Opaque key of a record in the ledger.
using RecordKey = std::string;
using Day = std::chrono::sys_days;

/// How one step, string or harp stands; drawn by shape first and colour second.
enum class State {
    fine,         ///< within tolerance beyond doubt
    watch,        ///< within, but past the watch mark
    unsure,       ///< measured, not proven either way
    out,          ///< beyond tolerance beyond doubt
    not_measured, ///< no reading to be trusted
    none          ///< the string has no such step
};

/// Worse states have the higher number: out, then not proven, watch, not measured, fine, none.
[[nodiscard]] constexpr int badness(State state)
{
    switch (state) {
    case State::out:
        return 5;
    case State::unsure:
        return 4;
    case State::watch:
        return 3;
    case State::not_measured:
        return 2;
    case State::fine:
        return 1;
    case State::none:
        break;
    }
    return 0;
}

[[nodiscard]] constexpr State worse(State a, State b)
{
    return badness(a) >= badness(b) ? a : b;
}

/// A measured figure as every page shows it.
struct Figure {
    double value = 0.0;
    double uncertainty = 0.0; ///< standard (k = 1), same unit
};

/// Which harp a page speaks of.
struct HarpHeading {
    RecordKey key;
    std::string name;
    std::string description; ///< "pedal harp, 47 strings, 2009"
    std::string whereabouts; ///< "practice room 2" or "on loan to a second-year pupil until 2026-07-31"
};

/// One reason or one thing to do, in words.
struct Advice {
    std::string headline;
    std::string reason;
    State state = State::fine;
};

} // namespace harpkeep::dashboard
