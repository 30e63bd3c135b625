// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "live/guided_check.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// A guided check under way.
struct OpenCheck {
    Uuid id;
    Uuid harp_id;
    Moment begun;
    std::string method = std::string{pitch_method}; ///< with which its readings were measured
    Hertz a4{440.0};
    GuidedCheckState state;
    std::vector<std::string> recordings; ///< one for each session; empty: its sound was not kept
};

/// Notes down that a guided check of a harp has begun.
///
/// Returns  its key, for store_progress()
[[nodiscard]] Result<Uuid> begin_open_check(Ledger& ledger, const Author& author, const Uuid& harp_id,
                                            Hertz a4, const CheckPlanRequest& request);

/// Notes down that another session of an open check begins.
///
/// Given    recording_path  where its sound is kept; empty: nowhere
/// Returns  the file_index for the readings of this session
[[nodiscard]] Result<int> begin_session(Ledger& ledger, const Uuid& open_check_id,
                                        const std::string& recording_path);

/// Brings the stored state up to date in one transaction, synced to the disk: new readings are added, those
/// that were superseded since are marked; nothing that was measured is changed.
///
/// Given  state  the one stored before, gone on with
/// Notes  Called after each reading that is kept; takes some milliseconds.
[[nodiscard]] Result<void> store_progress(Ledger& ledger, const Uuid& open_check_id,
                                          const GuidedCheckState& state);

/// The guided checks of a harp that are under way, youngest first, each with all it has kept.
[[nodiscard]] Result<std::vector<OpenCheck>> open_checks_of(const Ledger& ledger, const Uuid& harp_id);

/// Forgets an open check: it was stored as a check, or nobody wants to go on with it.
[[nodiscard]] Result<void> drop_open_check(Ledger& ledger, const Uuid& open_check_id);

} // namespace harpkeep::db
