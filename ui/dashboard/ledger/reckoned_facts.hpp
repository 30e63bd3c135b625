// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "ui/dashboard/ledger/ledger_history.hpp"
#include "ui/dashboard/ledger/ledger_strings.hpp"
#include "ui/dashboard/models/today_model.hpp"

#include <map>
#include <optional>
#include <vector>

namespace harpkeep::dashboard {

/// Harps beyond this number are not looked at for what one harp's page says of the school: what strings teach
/// is known well enough by then, and the wait would grow with the ledger.
inline constexpr std::size_t largest_school = 200;

/// The harps whose strings learn from one another.
struct SchoolKnowledge {
    std::vector<Uuid> harps;
    bool is_part = false;                            ///< the ledger has more harps in use
    std::map<Uuid, std::vector<StringLife>> strings; ///< all that were ever on each of them
    Lives lives;
    std::map<int, SchoolStrings> by_horizon_days;
};

/// What takes long to reckon from a ledger, kept while the file stays as it is.
///
/// Notes  The school of a harp: all harps in use when they are at most `largest_school`; else so many of
/// those
///        that stand in its room, itself among them.
class ReckonedFacts {
  public:
    explicit ReckonedFacts(const db::Ledger& ledger) : ledger_(ledger) {}

    /// Forgets all when the file or the day is another than before.
    void forget_when_changed(std::uint64_t revision, Date today);

    /// Of this harp, or without one of the harps that come first by name.
    [[nodiscard]] Result<SchoolKnowledge*> school(const std::optional<Uuid>& harp);
    [[nodiscard]] Result<const SchoolStrings*> school_strings(SchoolKnowledge& school, int horizon_days);
    [[nodiscard]] Result<const ui::HarpKnowledge*> knowledge(const HarpRecord& harp);
    [[nodiscard]] const std::optional<DriftFit>& drift(const ui::HarpKnowledge& knowledge);
    /// Given  knowledge  with a check
    [[nodiscard]] const TodayModel& today_page(const ui::HarpKnowledge& knowledge);

    /// Pages that a caller reckons and wants kept.
    std::optional<RoomModel> room_page;

  private:
    struct Members {
        std::vector<Uuid> harps;
        bool are_part = false;
    };
    [[nodiscard]] Result<Members> members_of_school(const std::optional<Uuid>& harp) const;

    const db::Ledger& ledger_;
    std::uint64_t revision_ = 0;
    Date today_;
    std::optional<SchoolKnowledge> school_;
    std::optional<ui::HarpKnowledge> knowledge_;
    std::optional<std::pair<Uuid, std::optional<DriftFit>>> drift_;
    std::optional<std::pair<Uuid, TodayModel>> today_page_;
};

} // namespace harpkeep::dashboard
