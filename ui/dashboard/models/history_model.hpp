// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <vector>

namespace harpkeep::dashboard {

/// Whose history: one step of one string, or of a whole pedal.
struct HistoryChoice {
    bool whole_pedal = false;
    StringPlace place; ///< for a pedal, its letter only
    Step step = Step::lower;

    bool operator==(const HistoryChoice&) const = default;
};

struct HistoryPoint {
    Day day;
    Figure error_cents;
    bool trusted = true;
};

enum class HistoryEventKind { visit, string_change };

struct HistoryEvent {
    Day day;
    HistoryEventKind kind = HistoryEventKind::visit;
    std::string text;
};

/// Expected error on a day with the limits that hold 95 of 100 such days.
struct ForecastPoint {
    Day day;
    double expected_cents = 0.0;
    double low_cents = 0.0;
    double high_cents = 0.0;
};

struct CheckName {
    RecordKey key;
    Day day;
    std::string note;
};

/// One step in two checks.
struct StepChange {
    StringPlace place;
    Step step = Step::lower;
    Figure before_cents;
    Figure after_cents;
    Figure change_cents; ///< after minus before
    bool beyond_uncertainty = false;
    bool better = false; ///< nearer to 100 cents than before
};

struct HistoryModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    std::vector<StringPlace> places; ///< that can be chosen, lowest first
    HistoryChoice choice;
    double low_cents = -5.0;
    double high_cents = 5.0;
    std::vector<HistoryPoint> points; ///< oldest first
    std::vector<HistoryEvent> events;
    std::vector<ForecastPoint> fitted;   ///< trend and season through the past
    std::vector<ForecastPoint> forecast; ///< from the last check on
    std::string forecast_text;           ///< "leaves tolerance about May 2027 (7 of 10 by then)"
    std::string drift_text;
    std::string season_text;
    std::vector<CheckName> checks; ///< newest first
    int before = -1;               ///< index into checks
    int after = -1;
    std::vector<StepChange> changes; ///< largest first
    std::string changes_text;
};

} // namespace harpkeep::dashboard
