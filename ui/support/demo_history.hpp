// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "synth/synthetic_harp.hpp"

#include <vector>

namespace harpkeep::ui {

/// A harp of the invented school.
struct DemoHarp {
    Uuid id;
    HarpLayout layout;
};

/// Three invented years of the school's harps before `author.now`: strings and spares with what they cost,
/// visits, checks, rooms, loans, climate, notes and reminders. All of it is made up; the checks are drawn
/// from synthetic harps, not measured from sound.
///
/// Given  harps  Heron, Wren, Linnet, Kestrel, in that order
///        heron  the harp of the demonstration's recording: what its last visits left
[[nodiscard]] Result<void> add_demo_history(db::Ledger& ledger, const db::Author& author,
                                            const std::vector<DemoHarp>& harps, const SyntheticHarp& heron);

} // namespace harpkeep::ui
