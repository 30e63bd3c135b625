// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <array>
#include <vector>

namespace harpkeep::dashboard {

/// One step of one string as judged.
struct StepToday {
    State state = State::none;
    std::optional<Figure> error_cents; ///< size of the step minus 100 cents
    double low_cents = -5.0;           ///< tolerance band
    double high_cents = 5.0;
    std::string why; ///< what the state rests on, one sentence
};

struct StringToday {
    StringPlace place;
    StepToday lower;
    StepToday upper;
    std::string string_now;          ///< "gut 1.02 mm, on since 2024-11-02"
    std::vector<std::string> causes; ///< what reasoning says about this string

    [[nodiscard]] State state() const { return worse(lower.state, upper.state); }
};

/// What one pedal does to all of its strings at once.
struct PedalToday {
    Letter letter = Letter::C;
    State state = State::fine;
    std::optional<Figure> lower_cents;
    std::optional<Figure> upper_cents;
};

enum class Verdict { call_now, next_visit, not_needed, too_little_data };

struct Counts {
    int fine = 0;
    int watch = 0;
    int unsure = 0;
    int out = 0;
    int not_measured = 0;

    bool operator==(const Counts&) const = default;
};

struct TodayModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    std::optional<Day> checked_on;
    std::string check_note; ///< "138 of 139 readings trusted, 21 °C, 44 % humidity"
    Verdict verdict = Verdict::too_little_data;
    std::vector<Advice> reasons;      ///< strongest first
    std::vector<Advice> to_do;        ///< in order of doing
    std::vector<StringToday> strings; ///< lowest first
    std::vector<PedalToday> pedals;   ///< in pedal order; empty on lever harps
};

/// How many strings stand in each state, by their worse step; strings without steps are left out.
[[nodiscard]] Counts count_states(const TodayModel& model);

/// The strings in the order a harpist wants to read them: worst state first, then the larger error.
[[nodiscard]] std::vector<std::size_t> worst_first(const TodayModel& model);

} // namespace harpkeep::dashboard
