// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/page_models.hpp"
#include "ui/dashboard/widgets/picture.hpp"

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
struct OpenExample {};
struct ShowFirstStart {};
struct UndoLast {};
struct Refresh {};

// What is written to the ledger, by the source.
struct AddHarp {
    std::string name;
    HarpKind kind = HarpKind::pedal;
    int string_count = 47;
};
struct PutStringOn {
    StringPlace place;
};
struct StringBroke {
    StringPlace place;
};
struct AddVisit {
    Day day;
    std::string work;
};
struct AddToStock {
    std::string what;
    int pieces = 1;
};
struct SetTolerance {
    ToleranceChoice tolerance;
};
struct CheckRecordings {
    std::vector<std::string> paths;
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
    int device = -1;
};
struct PauseGuided {};
struct ResumeGuided {};
struct RepeatString {};
struct SkipString {};
struct StopGuided {};
struct StartTuning {};
struct StopTuning {};
struct TunePlace {
    std::optional<StringPlace> place; ///< nothing: the nearest to what sounds
};
struct SetA4 {
    double a4_hz = 440.0;
};

using Action =
    std::variant<GoTo, ChooseHarp, ChooseString, ChangeSettings, ChooseHistory, CompareChecks, ChooseHorizon,
                 TryGauge, ChoosePedals, ChooseFile, ExportPicture, ExportTable, OpenExample, ShowFirstStart,
                 UndoLast, Refresh, AddHarp, PutStringOn, StringBroke, AddVisit, AddToStock, SetTolerance,
                 CheckRecordings, ImportClimate, OpenLedger, StartGuided, PauseGuided, ResumeGuided,
                 RepeatString, SkipString, StopGuided, StartTuning, StopTuning, TunePlace, SetA4>;

using Actions = std::vector<Action>;

} // namespace harpkeep::dashboard
