// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/example/example.hpp"

#include <atomic>
#include <set>

namespace harpkeep::dashboard {

/// The invented school as a source: the demo, the pictures and the tests. Nothing it is told reaches a file.
class ExampleSource final : public Source {
  public:
    struct Start {
        int harps = 24;      ///< 0: a ledger without any harp
        bool checked = true; ///< false: harps without checks
        LivePhase guided = LivePhase::setting_up;
    };
    explicit ExampleSource(Start start);
    ExampleSource();

    [[nodiscard]] std::string ledger_name() const override;
    [[nodiscard]] Result<std::vector<HarpChoice>> harps() override;
    [[nodiscard]] Result<PageModel> load(Page page, const Query& query) override;
    [[nodiscard]] Result<Outcome> perform(const Action& action, const Query& query,
                                          JobContext& context) override;
    [[nodiscard]] Result<Outcome> undo() override;
    [[nodiscard]] std::uint64_t revision() const override { return revision_; }
    [[nodiscard]] bool live() const override;

  private:
    struct Changes {
        std::vector<HarpChoice> added_harps;
        std::set<int> broken; ///< diatonic indices of places without a string
        std::set<int> fresh;  ///< with a string put on today
        std::vector<VisitRow> visits;
        std::vector<std::pair<std::string, int>> stock;
        ToleranceChoice tolerance;
    };
    void keep() { undo_.push_back(changes_); }
    Result<Outcome> told_of_live(const Action& action);

    Start start_;
    std::atomic<LivePhase> phase_;
    Way way_ = Way::pass_by_pass;
    std::atomic<bool> tuning_ = false;
    std::atomic<int> ticks_ = 0;
    std::optional<StringPlace> tuned_place_;
    double a4_hz_ = 440.0;
    Changes changes_;
    std::vector<Changes> undo_;
    std::atomic<std::uint64_t> revision_ = 1;
};

} // namespace harpkeep::dashboard
