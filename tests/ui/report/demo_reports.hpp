// SPDX-License-Identifier: MIT
#pragma once

#include "db/records/harps.hpp"
#include "ui/support/demo_ledger.hpp"
#include "ui/support/harp_report.hpp"

namespace harpkeep::test {

/// 2026-03-04 18:05 in a zone one hour ahead of UTC.
inline constexpr Moment demo_now{1772643900000, 60};
inline constexpr Date demo_day{2026, 3, 4};
inline constexpr int demo_harps = 4; ///< those with stories; more take longer to make

/// The invented school as it would be made on that day; made once, for all tests of this program.
inline const db::Ledger& demo_ledger()
{
    static const db::Ledger ledger = [] {
        auto made = db::Ledger::open(":memory:", db::Access::create, demo_now).value();
        const auto filled = ui::fill_demo_ledger(made, {demo_now, "test computer"}, demo_harps);
        if (!filled) throw std::runtime_error(filled.error().message);
        return made;
    }();
    return ledger;
}

inline ui::ReportRequest demo_request(ui::ReportKind kind)
{
    ui::ReportRequest request{.kind = kind, .today = demo_day};
    request.harp = db::harp_named(demo_ledger(), "Heron").value();
    if (kind == ui::ReportKind::room) {
        const auto year = ui::school_year_of(demo_day);
        request.room = "Music room 2";
        request.from = year.from;
        request.until = year.until;
    }
    if (kind == ui::ReportKind::tuning) {
        request.tuning.occasion = "Spring concert";
        request.tuning.settings = {{setting_from_text("E flat major").value(), 12.0},
                                   {setting_from_text("C major").value(), 4.0}};
    }
    return request;
}

inline report::Document demo_document(ui::ReportKind kind)
{
    const auto made = ui::make_report(demo_ledger(), demo_request(kind));
    if (!made) throw std::runtime_error(made.error().message);
    return *made;
}

} // namespace harpkeep::test
