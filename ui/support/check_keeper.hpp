// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "live/guided_check.hpp"
#include "measure/reading.hpp"
#include "records/harp_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::ui {

/// How a live check of a harp begins.
struct LiveCheckRequest {
    CheckPlanRequest plan;
    Hertz a4{440.0};
    bool anew = false;       ///< forget a check of this harp that was stopped, instead of going on with it
    bool store = true;       ///< false: nothing is kept in the ledger, and a stopped check is lost
    std::string record_path; ///< where to keep the sound of this session; empty: nowhere
    Seconds room{3.0};       ///< silence to judge the room by before the first pluck; 0: it is not judged
};

/// The ledger's side of a guided check: it is begun or gone on with, each reading is on the disk before the
/// next thing happens, and in the end it becomes a check.
///
/// Notes  Like its ledger it belongs to one thread at a time.
class CheckKeeper {
  public:
    /// Begins a check, or takes up the one of this harp that was stopped.
    ///
    /// Returns  refused when the stopped one was measured by another method than this version's
    [[nodiscard]] static Result<CheckKeeper> begin(db::Ledger ledger, HarpRecord harp,
                                                   const LiveCheckRequest& request);
    /// Takes up the one that was stopped, to store it as far as it went, whatever measured it; not_found when
    /// there is none.
    [[nodiscard]] static Result<CheckKeeper> take_up(db::Ledger ledger, HarpRecord harp);

    /// The check as it was begun or left, once: it goes to whoever guides it.
    [[nodiscard]] GuidedCheck take_check();
    [[nodiscard]] bool resumed() const { return resumed_; }
    [[nodiscard]] const HarpRecord& harp() const { return harp_; }
    /// Where the sound of each session was kept; empty: nowhere.
    [[nodiscard]] const std::vector<std::string>& recordings() const { return recordings_; }

    /// Another session of the check begins.
    ///
    /// Returns  the file_index for its readings
    [[nodiscard]] Result<int> begin_session(const std::string& record_path);
    [[nodiscard]] Result<void> keep(const GuidedCheckState& state);

    /// Makes a check of the ledger of it; without a store it is only put together.
    [[nodiscard]] Result<CheckResult> store(const GuidedCheck& check, std::vector<std::string> remarks);

  private:
    CheckKeeper(db::Ledger ledger, HarpRecord harp) : ledger_(std::move(ledger)), harp_(std::move(harp)) {}
    [[nodiscard]] Result<void> go_on(GuidedCheckState state, Hertz a4);

    db::Ledger ledger_;
    HarpRecord harp_;
    std::optional<GuidedCheck> check_;
    std::optional<Uuid> id_; ///< of the open check in the ledger; nothing: it is not stored
    bool resumed_ = false;
    std::string method_{pitch_method};
    Moment begun_;
    std::vector<std::string> recordings_;
};

/// The strings that the youngest check of a harp leaves in doubt, lowest first: a reading not to be trusted
/// and no other one of that position, a position that was not sounded, a step that could not be measured.
[[nodiscard]] Result<std::vector<StringPlace>> doubtful_strings(const db::Ledger& ledger,
                                                                const HarpRecord& harp);

} // namespace harpkeep::ui
