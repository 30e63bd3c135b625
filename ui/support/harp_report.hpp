// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "reason/tune_around.hpp"
#include "records/harp_record.hpp"
#include "report/document.hpp"
#include "report/paper.hpp"
#include "units/date.hpp"

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::ui {

// Reports of a ledger, as the command line and the window ask for them.

enum class ReportKind {
    technician, ///< for the technician's visit
    visit,      ///< before and after a visit
    history,    ///< for insurance, sale, hand-over
    room,       ///< a room's, or the whole school's, year with cost
    strings,    ///< card for the case
    tuning,     ///< list for a concert
};

inline constexpr std::array<ReportKind, 6> all_report_kinds{ReportKind::technician, ReportKind::visit,
                                                            ReportKind::history,    ReportKind::room,
                                                            ReportKind::strings,    ReportKind::tuning};

[[nodiscard]] std::string_view report_kind_name(ReportKind kind);
[[nodiscard]] std::optional<ReportKind> report_kind_from_name(std::string_view name);

/// The two checks that a visit is judged by, when they are not to be found from it.
struct ChosenChecks {
    Uuid before;
    Uuid after;
};

/// What a tuning list is asked for with.
struct TuningWish {
    std::string occasion;
    std::vector<UsedSetting> settings; ///< empty: tune to the temperament as it is
    TuneGoal goal = TuneGoal::least_greatest;
    Temperament temperament = all_temperaments().front();
    std::optional<double> a4_hz; ///< nothing: that of the check, or 440
};

struct ReportRequest {
    ReportKind kind = ReportKind::technician;
    Date today;                     ///< the day to speak of, and the date in the file
    std::optional<HarpRecord> harp; ///< for all kinds but room
    std::optional<Uuid> check_id;   ///< technician, history, tuning: nothing: the youngest
    std::optional<Uuid> visit_id;   ///< visit: nothing: the last
    std::optional<ChosenChecks> checks;
    std::string room; ///< room: empty: the whole school
    Date from;        ///< room: first and last day
    Date until;
    TuningWish tuning;
};

/// Told the share that is done; false stops.
using ReportProgress = std::function<bool(double)>;

/// The report as a value: what stands in it, before it is set on paper or written as CSV or JSON.
///
/// Given      harp set for every kind but room; from and until full dates for room
///            progress  may be empty
/// Returns    the report, or what is missing for it; refused when progress stopped it
/// Notes      Only room takes long: about 50 ms of processor a harp.
[[nodiscard]] Result<report::Document> make_report(const db::Ledger& ledger, const ReportRequest& request,
                                                   const ReportProgress& progress = {});

/// First and last day of the school year that begins in August of `year`. Schools differ; this is the
/// project's own choice, and any other days can be asked for.
struct SchoolYear {
    Date from;
    Date until;
};
[[nodiscard]] SchoolYear school_year(int year);
/// The school year in which a day lies.
[[nodiscard]] SchoolYear school_year_of(Date day);

enum class ReportFormat { pdf, csv, json };

struct ReportOutput {
    ReportFormat format = ReportFormat::pdf;
    report::Paper paper = report::Paper::a4;
    std::string table; ///< csv: empty: the report's main table
};

/// The bytes of the file.
[[nodiscard]] Result<std::string> report_bytes(const report::Document& document, const ReportOutput& output);

/// {"report", "title", "subject", "as_of", "facts", "text", "tables"}: everything in it, as JSON text.
[[nodiscard]] std::string report_json(const report::Document& document);

/// "heron-technician-2026-11-25.pdf": letters, digits and hyphens only.
[[nodiscard]] std::string suggested_file_name(const report::Document& document, ReportFormat format);

} // namespace harpkeep::ui
