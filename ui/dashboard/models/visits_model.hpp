// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <vector>

namespace harpkeep::dashboard {

enum class DiaryKind { visit, check, string_change, reminder, loan };

struct DiaryEntry {
    RecordKey key;
    Day day;
    DiaryKind kind = DiaryKind::visit;
    std::string title;
    std::string detail;
    bool due = false; ///< lies ahead or is overdue
};

struct VisitRow {
    RecordKey key;
    Day day;
    std::string who; ///< by role: "visiting technician"
    std::string work;
    std::string cost;
    std::optional<int> steps_out_before;
    std::optional<int> steps_out_after;
    std::string result;
};

/// A part that is wanted at the next visit.
struct WantedPart {
    RecordKey key;
    std::string words;
};

struct VisitsModel {
    HarpHeading harp;
    Day today;
    std::vector<DiaryEntry> diary;   ///< by day
    std::vector<VisitRow> visits;    ///< newest first
    std::vector<Advice> preparation; ///< what helps before the next visit
    std::vector<WantedPart> wanted;  ///< youngest first
};

} // namespace harpkeep::dashboard
