// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "units/date.hpp"

#include <vector>

namespace harpkeep::dashboard {

/// One loan of a harp.
struct LoanLine {
    RecordKey key;
    std::string borrower;
    Date from;
    std::optional<Date> until; ///< when it is due back
    std::optional<Date> back;  ///< when it came back
    std::string condition_out;
    std::string condition_back;
};

struct RoomRow {
    RecordKey key;
    std::string name;
    std::string kind;
    std::string room;
    std::string loan;            ///< "second-year pupil, to 2026-07-31"
    std::vector<LoanLine> loans; ///< newest first; the first may be out
    State state = State::not_measured;
    int steps_out = 0;
    std::optional<Day> checked_on;
    std::optional<Day> visited_on;
    std::string due;
    std::optional<Day> due_on;
    double cost_year = 0.0;
    std::string cost_text;
    int strings_at_risk = 0;
};

struct RoomModel {
    std::string school;
    Day today;
    std::vector<RoomRow> rows;
    std::vector<std::string> rooms; ///< by name, for a sheet of one of them
    int school_year = 0;            ///< of today
    std::string currency;
    std::string cost_total;
};

} // namespace harpkeep::dashboard
