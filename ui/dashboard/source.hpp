// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/jobs.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// What the pages are asked to show.
struct Query {
    RecordKey harp;
    HistoryChoice history;
    int compare_before = -1;
    int compare_after = -1;
    int horizon_days = 90;
    std::optional<TryGauge> trial;
    std::optional<PedalSetting> pedals; ///< nothing: all flat, or all open
    double a4_hz = 440.0;               ///< from the settings
};

struct HarpChoice {
    RecordKey key; ///< rises with the time at which the harp was entered
    std::string name;
    HarpKind kind = HarpKind::pedal;
};

/// What an action did, for the message at the foot of the window.
struct Outcome {
    std::string message;
    bool undoable = false;
    std::optional<Page> go_to;
    std::optional<RecordKey> choose_harp;
};

/// Where the window's facts come from and where its wishes go: a ledger, or one whose live pages are staged.
///
/// Notes  load(), perform(), undo() and sheet() are called from one worker thread at a time, never inside a
/// frame.
class Source {
  public:
    virtual ~Source() = default;

    /// Name of the ledger as shown in the rail.
    [[nodiscard]] virtual std::string ledger_name() const = 0;
    /// True for the invented school.
    [[nodiscard]] virtual bool example() const { return false; }
    [[nodiscard]] virtual Result<std::vector<HarpChoice>> harps() = 0;
    /// The page's view model, or why it cannot be had.
    [[nodiscard]] virtual Result<PageModel> load(Page page, const Query& query) = 0;
    /// Carries out what an action asks of the ledger or of the live session.
    [[nodiscard]] virtual Result<Outcome> perform(const Action& action, const Query& query,
                                                  JobContext& context) = 0;
    [[nodiscard]] virtual Result<Outcome> undo() = 0;
    /// What stands on a sheet, of the harp in the query where it is about one.
    [[nodiscard]] virtual Result<report::Document> sheet(const PrintSheet& wish, const Query& query,
                                                         JobContext& context) = 0;
    /// Rises whenever anyone, also another program, changed the ledger. Cheap: called once a second.
    [[nodiscard]] virtual std::uint64_t revision() const = 0;
    /// True while a live session runs, so that the window draws without being touched.
    [[nodiscard]] virtual bool live() const = 0;
};

} // namespace harpkeep::dashboard
