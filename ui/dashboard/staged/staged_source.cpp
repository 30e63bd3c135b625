// SPDX-License-Identifier: MIT
#include "ui/dashboard/staged/staged_source.hpp"

#include "ui/dashboard/ledger/example_ledger.hpp"

#include <filesystem>

namespace harpkeep::dashboard {

namespace {

/// 2026-11-24, 18:00 in Central Europe, going on by a second at each look, so that actions have an order.
LedgerSource::AuthorNow evening_clock()
{
    constexpr std::int64_t evening_utc_ms = 1'795'539'600'000;
    auto looks = std::make_shared<std::atomic<std::int64_t>>(0);
    return [looks] { return db::Author{{evening_utc_ms + ++*looks * 1000, 60}, "example computer"}; };
}

} // namespace

StagedSource::StagedSource(std::shared_ptr<Source> pages, LivePhase phase)
    : pages_(std::move(pages)), phase_(phase)
{
}

bool StagedSource::live() const
{
    const LivePhase phase = phase_;
    return tuning_ ||
           (phase != LivePhase::setting_up && phase != LivePhase::finished && phase != LivePhase::paused);
}

Result<PageModel> StagedSource::load(Page page, const Query& query)
{
    auto model = pages_->load(page, query);
    if (!model || std::holds_alternative<EmptyPage>(*model)) return model;
    const int tick = ticks_++;
    if (auto* guided = std::get_if<GuidedModel>(&*model)) {
        const auto harp = guided->harp;
        *guided = staged::guided(phase_, way_);
        guided->harp = harp;
    }
    if (auto* tuning = std::get_if<TuningModel>(&*model)) {
        const auto harp = tuning->harp;
        auto temperaments = tuning->temperaments;
        const bool can_tune_around = tuning->can_tune_around;
        *tuning = staged::tuning(tuning_, tick / 30.0);
        tuning->harp = harp;
        tuning->temperaments = std::move(temperaments);
        tuning->can_tune_around = can_tune_around;
        tuning->a4_hz = query.a4_hz;
        tuning->place_fixed = tuned_place_.has_value();
        if (tuned_place_ && tuning_) tuning->place = tuned_place_;
    }
    return model;
}

Result<Outcome> StagedSource::perform(const Action& action, const Query& query, JobContext& context)
{
    const auto to = [&](LivePhase phase) {
        phase_ = phase;
        return Outcome{};
    };
    if (const auto* start = std::get_if<StartGuided>(&action)) {
        way_ = start->way;
        return to(LivePhase::set_pedals);
    }
    if (std::holds_alternative<PauseGuided>(action)) return to(LivePhase::paused);
    if (std::holds_alternative<ResumeGuided>(action)) return to(LivePhase::listening);
    if (std::holds_alternative<RepeatString>(action)) return to(LivePhase::ask_again);
    if (std::holds_alternative<SkipString>(action)) return to(LivePhase::listening);
    if (std::holds_alternative<StopGuided>(action)) return to(LivePhase::setting_up);
    if (std::holds_alternative<StartTuning>(action) || std::holds_alternative<StopTuning>(action)) {
        tuning_ = std::holds_alternative<StartTuning>(action);
        return Outcome{};
    }
    if (const auto* tune = std::get_if<TunePlace>(&action)) {
        tuned_place_ = tune->place;
        return Outcome{};
    }
    return pages_->perform(action, query, context);
}

Result<std::shared_ptr<Source>> staged_school(const std::string& folder, const StagedSchool& school)
{
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) return failure(ErrorCode::unavailable, "making the folder " + folder + ": " + error.message());
    JobContext context;
    auto pages = school.harps > 0
                     ? open_example_ledger(folder, evening_clock(), school.harps, context)
                     : LedgerSource::open((std::filesystem::path{folder} / "empty.harpkeep").string(),
                                          evening_clock());
    if (!pages) return failure(pages.error());
    // Pictures and tests are the same with and without a microphone.
    if (const auto ledger = std::dynamic_pointer_cast<LedgerSource>(*pages))
        ledger->live_pages().use_devices([] { return Result<std::vector<harpkeep::AudioDevice>>{}; });
    return std::shared_ptr<Source>{std::make_shared<StagedSource>(std::move(*pages), school.phase)};
}

} // namespace harpkeep::dashboard
