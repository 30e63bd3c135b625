// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/page_models.hpp"
#include "ui/dashboard/widgets/picture.hpp"
#include "ui/support/harp_report.hpp"

#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace harpkeep::dashboard {

// What the window itself does.
struct GoTo {
    Page page = Page::today;
};
struct ChooseHarp {
    RecordKey key;
};
struct ChooseString {
    StringPlace place;
};
struct ChangeSettings {
    Settings settings;
};
struct ChooseHistory {
    HistoryChoice choice;
};
struct CompareChecks {
    int before = -1;
    int after = -1;
};
struct ChooseHorizon {
    int days = 90;
};
struct TryGauge {
    StringPlace place;
    double gauge_mm = 0.0;
};
struct ChoosePedals {
    PedalSetting setting;
};
struct ChooseFile {
    enum class Purpose { recording, climate_table, open_ledger } purpose = Purpose::recording;
};
/// A picture to be written as SVG or PNG; made anew for paper, so always in the light palette.
struct ExportPicture {
    std::string suggested_name;
    std::function<Picture(const Palette&, const TextMeasure&)> make;
};
struct ExportTable {
    std::string suggested_name;
    std::string csv;
};
/// A sheet to print: asks what is left to choose, makes it, and saves it.
struct PrintSheet {
    ui::ReportKind kind = ui::ReportKind::technician;
    RecordKey visit;                     ///< of before and after; empty: the last
    RecordKey check_before, check_after; ///< of before and after: these instead of a visit's
    std::optional<PedalSetting> pedals;  ///< of a tuning list: tune around them
    std::string temperament = "equal";   ///< of a tuning list
    std::string occasion;                ///< of a tuning list
    std::string room;                    ///< of a room's year; empty: the whole school
    std::optional<int> year;             ///< school year of a room; nothing: that of today
};
struct OpenExample {};
struct BackToOwnLedger {};
/// Recordings were chosen or dropped: asks how they were made, then checks them.
struct PrepareCheck {
    std::vector<std::string> paths;
};
struct ShowFirstStart {};
struct UndoLast {};
struct Refresh {};

// What is written to the ledger, by the source.
struct AddHarp {
    std::string name;
    HarpKind kind = HarpKind::pedal;
    int string_count = 47;
};
/// What a string is made of, as typed.
struct MakeChoice {
    std::string material;
    double gauge_mm = 0.0;
    std::string wrap_material;  ///< empty: not wound
    double wrap_outer_mm = 0.0; ///< over the wrap
};
struct PutStringOn {
    StringPlace place;
    std::optional<MakeChoice> make; ///< nothing: as planned, else as the string before
};
/// Writes a place of the stringing plan.
struct PlanString {
    StringPlace place;
    MakeChoice make;
    double length_mm = 0.0;
};
struct StringBroke {
    StringPlace place;
};
struct AddVisit {
    Day day;
    std::string who;
    std::string work;
    std::string cost; ///< "295.00 EUR", or empty
};
/// Notes a part for the next visit, or that it is no longer wanted.
struct WantPart {
    std::string words;
};
struct DropPart {
    RecordKey key;
};
struct LendHarp {
    RecordKey harp;
    std::string borrower;
    Date from;
    std::optional<Date> until; ///< when it is due back
    std::string condition;     ///< at hand-over
};
/// States a loan that is out anew.
struct ChangeLoan {
    RecordKey loan;
    std::string borrower;
    Date from;
    std::optional<Date> until;
    std::string condition;
};
struct ReturnHarp {
    RecordKey harp;
    Date on;
    std::string condition; ///< when it came back
};
struct AddToStock {
    std::string what;
    int pieces = 1;
};
struct SetTolerance {
    ToleranceChoice tolerance;
};
struct RecordingOfCheck {
    std::string path;
    std::optional<Position> pass; ///< everything in it was sounded in this position
};
struct CheckRecordings {
    std::vector<RecordingOfCheck> recordings;
};
struct ImportClimate {
    std::string path;
};
struct OpenLedger {
    std::string path;
};

// What a live session is told.
struct StartGuided {
    Way way = Way::pass_by_pass;
    std::string device; ///< its name; empty: the first that is fit
    bool anew = false;  ///< forget a check that was stopped
};
struct PauseGuided {};
struct ResumeGuided {};
struct RepeatString {};
struct SkipString {};
struct StopGuided {};
struct StartTuning {
    std::string device;
    std::string temperament = "equal";
    bool naturals = false; ///< all pedals in the middle
    bool around = false;   ///< by the list of the chosen pedal setting
};
struct NextTuningPass {};
struct TakeA4FromTone {};
struct StopTuning {};
struct TunePlace {
    std::optional<StringPlace> place; ///< nothing: the nearest to what sounds
};
struct SetA4 {
    double a4_hz = 440.0;
};

using Action =
    std::variant<GoTo, ChooseHarp, ChooseString, ChangeSettings, ChooseHistory, CompareChecks, ChooseHorizon,
                 TryGauge, ChoosePedals, ChooseFile, ExportPicture, ExportTable, PrintSheet, OpenExample,
                 BackToOwnLedger, PrepareCheck, ShowFirstStart, UndoLast, Refresh, AddHarp, PutStringOn,
                 PlanString, StringBroke, AddVisit, WantPart, DropPart, LendHarp, ChangeLoan, ReturnHarp,
                 AddToStock, SetTolerance, CheckRecordings, ImportClimate, OpenLedger, StartGuided,
                 PauseGuided, ResumeGuided, RepeatString, SkipString, StopGuided, StartTuning, StopTuning,
                 NextTuningPass, TakeA4FromTone, TunePlace, SetA4>;

using Actions = std::vector<Action>;

} // namespace harpkeep::dashboard
