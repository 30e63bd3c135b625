// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/source.hpp"
#include "ui/dashboard/staged/staged_live.hpp"

#include <atomic>
#include <memory>

namespace harpkeep::dashboard {

/// A source whose live pages are staged, for pictures and tests: every phase can be shown without a harp. All
/// other pages and actions are those of the ledger behind it.
class StagedSource final : public Source {
  public:
    StagedSource(std::shared_ptr<Source> pages, LivePhase phase);

    [[nodiscard]] std::string ledger_name() const override { return pages_->ledger_name(); }
    [[nodiscard]] bool example() const override { return pages_->example(); }
    [[nodiscard]] Result<std::vector<HarpChoice>> harps() override { return pages_->harps(); }
    [[nodiscard]] Result<PageModel> load(Page page, const Query& query) override;
    [[nodiscard]] Result<Outcome> perform(const Action& action, const Query& query,
                                          JobContext& context) override;
    [[nodiscard]] Result<Outcome> undo() override { return pages_->undo(); }
    [[nodiscard]] Result<report::Document> sheet(const PrintSheet& wish, const Query& query,
                                                 JobContext& context) override
    {
        return pages_->sheet(wish, query, context);
    }
    [[nodiscard]] std::uint64_t revision() const override { return pages_->revision(); }
    [[nodiscard]] bool live() const override;

  private:
    std::shared_ptr<Source> pages_;
    std::atomic<LivePhase> phase_;
    Way way_ = Way::pass_by_pass;
    std::atomic<bool> tuning_ = false;
    std::atomic<int> ticks_ = 0;
    std::optional<StringPlace> tuned_place_;
};

/// What a staged window shows.
struct StagedSchool {
    int harps = 16; ///< of the invented school; 0: a ledger without any
    LivePhase phase = LivePhase::setting_up;
};

/// Makes the invented school in a folder, as seen on the evening of 24 November 2026, and stages it.
///
/// Given  folder  of its own; a school that lies there is shown as it is
[[nodiscard]] Result<std::shared_ptr<Source>> staged_school(const std::string& folder,
                                                            const StagedSchool& school);

} // namespace harpkeep::dashboard
