// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/jobs.hpp"
#include "ui/dashboard/messages.hpp"
#include "ui/dashboard/source.hpp"
#include "ui/dashboard/ui.hpp"

namespace harpkeep::dashboard {

// The parts of the window around the page.

struct RailModel {
    Page page = Page::today;
    std::vector<HarpChoice> harps;
    RecordKey harp;
    std::string ledger;
    bool example = false; ///< the invented school, opened beside the own ledger
};

/// Width of the rail in units of design; narrow when the letters are large for the window.
[[nodiscard]] float rail_width(const Ui& ui, float window_width_units);

/// The rail at the left: the harp, and the pages as discs on a string; the disc of the page shown is turned
/// and grips, as a disc does on the harp.
[[nodiscard]] Actions draw_rail(const Ui& ui, const RailModel& model, bool narrow);

/// Title of the page and which harp it speaks of.
void draw_page_head(const Ui& ui, Page page, const PageModel* model);

struct FootWish {
    bool put_away = false;
    bool show_all = false;
    bool show_keys = false;
    bool undo = false;
    int cancel_job = 0;
};
/// 1, or 2 where a message and its buttons find no room in one.
[[nodiscard]] int foot_lines(const Ui& ui, const Message* message, float width);
[[nodiscard]] float foot_height(const Ui& ui, int lines);
/// The line at the foot: running jobs with their progress, the last message, if any, with its undo.
[[nodiscard]] FootWish draw_foot(const Ui& ui, const Message* message, const std::vector<Jobs::Running>& jobs,
                                 int lines);

} // namespace harpkeep::dashboard
