// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "ui/dashboard/ledger/live_pages.hpp"
#include "ui/dashboard/ledger/reckoned_facts.hpp"
#include "ui/dashboard/source.hpp"
#include "upkeep/due_work.hpp"

#include <functional>
#include <memory>
#include <optional>

namespace harpkeep::dashboard {

/// A ledger file as the source of the window.
///
/// Notes  What takes long to reckon (drift of a harp, lives of a school's strings) is kept until the file
///        changes, by this program or another (ReckonedFacts).
class LedgerSource final : public Source {
  public:
    using AuthorNow = std::function<db::Author()>;

    /// Opens the file, making it when it is missing.
    enum class Use { own, example };
    [[nodiscard]] static Result<std::shared_ptr<Source>> open(const std::string& path, AuthorNow author,
                                                              Use use = Use::own);
    LedgerSource(db::Ledger ledger, AuthorNow author, Use use);

    [[nodiscard]] std::string ledger_name() const override;
    [[nodiscard]] bool example() const override { return use_ == Use::example; }
    [[nodiscard]] Result<std::vector<HarpChoice>> harps() override;
    [[nodiscard]] Result<PageModel> load(Page page, const Query& query) override;
    [[nodiscard]] Result<Outcome> perform(const Action& action, const Query& query,
                                          JobContext& context) override;
    [[nodiscard]] Result<Outcome> undo() override;
    [[nodiscard]] Result<report::Document> sheet(const PrintSheet& wish, const Query& query,
                                                 JobContext& context) override;
    /// From time and size of the file and of its write-ahead log.
    [[nodiscard]] std::uint64_t revision() const override;
    [[nodiscard]] bool live() const override { return live_.live(); }
    [[nodiscard]] LivePages& live_pages() { return live_; }

  private:
    [[nodiscard]] Date today() const;
    [[nodiscard]] Result<HarpHeading> heading_of(const HarpRecord& harp) const;

    [[nodiscard]] Result<PageModel> load_today(const HarpRecord& harp);
    [[nodiscard]] Result<PageModel> load_history(const HarpRecord& harp, const Query& query);
    [[nodiscard]] Result<PageModel> load_strings(const HarpRecord& harp, const Query& query);
    [[nodiscard]] Result<PageModel> load_tension(const HarpRecord& harp, const Query& query);
    [[nodiscard]] Result<PageModel> load_pedals(const HarpRecord& harp, const Query& query);
    [[nodiscard]] Result<PageModel> load_visits(const HarpRecord& harp);
    [[nodiscard]] std::vector<DueItem> due_of(const HarpUpkeep& upkeep,
                                              const std::vector<ReminderRecord>& reminders, Date until) const;
    [[nodiscard]] Result<PageModel> load_climate(const HarpRecord& harp);
    [[nodiscard]] Result<PageModel> load_room();
    [[nodiscard]] Result<PageModel> load_settings(const HarpRecord* harp);

    [[nodiscard]] Result<PageModel> load_live(Page page, const HarpRecord& harp, const Query& query);
    [[nodiscard]] Result<Outcome> tell_live(const Action& action, const Uuid& harp, const Query& query);
    [[nodiscard]] Result<Outcome> put_on(const Uuid& harp, const PutStringOn& wish);
    [[nodiscard]] Result<Outcome> plan(const Uuid& harp, const PlanString& wish);
    [[nodiscard]] Result<Outcome> add_visit(const Uuid& harp, const AddVisit& wish);
    [[nodiscard]] Result<Outcome> broke(const Uuid& harp, StringPlace place);
    [[nodiscard]] Result<Outcome> check_recordings(const Uuid& harp, const CheckRecordings& wish,
                                                   double a4_hz, JobContext& context);
    [[nodiscard]] Result<Outcome> import_climate(const Uuid& harp, const std::string& path);
    [[nodiscard]] Result<Outcome> want(const Uuid& harp, const std::string& part);
    [[nodiscard]] Result<Outcome> lend(const LendHarp& wish);
    [[nodiscard]] Result<Outcome> change_loan(const ChangeLoan& wish);
    [[nodiscard]] Result<Outcome> give_back(const ReturnHarp& wish);
    [[nodiscard]] Result<Outcome> add_to_stock(const AddToStock& wish);

    db::Ledger ledger_;
    AuthorNow author_;
    Use use_;
    std::string path_; ///< read by revision() from another thread
    ReckonedFacts reckoned_{ledger_};
    LivePages live_;
};

} // namespace harpkeep::dashboard
