// SPDX-License-Identifier: MIT
#include "ui/support/live_check.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::ui {

namespace {

constexpr Seconds level_every{0.1};
constexpr int plucks_to_judge_level_by = 3;

LiveCheckObserver& nobody()
{
    static LiveCheckObserver observer;
    return observer;
}

} // namespace

/// The check as the work of a session.
class LiveCheck::Listener : public LiveWork {
  public:
    Listener(CheckKeeper keeper, const LiveCheckRequest& request, LiveCheckObserver* observer)
        : keeper_(std::move(keeper)),
          request_(request),
          observer_(observer ? *observer : nobody()),
          check_(keeper_.take_check())
    {
        note_state();
        (void)publish();
    }

    Result<void> begin(const OpenDevice& device) override
    {
        auto recording = LiveRecording::open(request_.record_path, device.rate);
        if (!recording) return failure(recording.error());
        recording_ = std::move(*recording);
        const auto file_index = keeper_.begin_session(request_.record_path);
        if (!file_index) return failure(file_index.error());
        check_.count_file(*file_index);
        view_.device = device;
        view_.judging_room = request_.room.value() > 0.0;
        if (view_.judging_room) room_.emplace(device.rate);
        changed_ = true;
        observer_.opened(device);
        observer_.went_on({}, check_.view(), false);
        return {};
    }

    Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) override
    {
        note_level(samples);
        if (room_) room_->push(samples);
        heard_s_ += static_cast<double>(samples.size()) / view_.device->rate.value();
        if (view_.judging_room && heard_s_ >= request_.room.value()) judge_room();
        return recording_.write(samples, first_frame);
    }

    Result<void> hear(const PluckEvent& event) override
    {
        if (view_.judging_room) judge_room(); // the player does not wait
        if (std::holds_alternative<PluckBegan>(event) && room_) room_->expect_plucks();
        const auto outcome = check_.handle(event);
        if (!outcome.kept.empty())
            if (auto kept = keep(); !kept) return kept;
        if (std::holds_alternative<PluckEnded>(event) && ++plucks_ == plucks_to_judge_level_by) judge_level();
        changed_ = true;
        observer_.went_on(outcome, check_.view(), std::holds_alternative<PluckEstimated>(event));
        return {};
    }

    void gap(const StreamGap& gap) override
    {
        view_.lost_frames += gap.lost_frames;
        ++gaps_;
        changed_ = true;
        observer_.gap(gap);
    }

    void trouble(const std::string& text) override
    {
        view_.trouble = text;
        changed_ = true;
        observer_.trouble(text);
    }

    bool publish() override
    {
        if (!changed_) return false;
        changed_ = false;
        view_.check = check_.view();
        published_.set(view_);
        return true;
    }

    [[nodiscard]] bool finished() const override { return check_.complete(); }
    Result<void> end() override { return recording_.finish(); }

    // What the player wishes, on the thread of the session.
    Result<void> pause(bool paused)
    {
        check_.pause(paused);
        went_on({});
        return {};
    }

    Result<void> take_back()
    {
        if (!check_.take_back()) return {};
        auto kept = keep();
        went_on({});
        return kept;
    }

    Result<void> leave_part()
    {
        const auto outcome = check_.leave_station();
        auto kept = keep();
        went_on(outcome);
        return kept;
    }

    Result<CheckResult> store()
    {
        std::vector<std::string> remarks;
        if (view_.device && !view_.device->warning.empty()) remarks.push_back(view_.device->warning);
        if (gaps_ > 0)
            remarks.push_back(fmt::format("The sound had {} hole(s), {} samples in all; nothing was measured "
                                          "across them.",
                                          gaps_, view_.lost_frames));
        return keeper_.store(check_, std::move(remarks));
    }

    [[nodiscard]] const CheckKeeper& keeper() const { return keeper_; }
    [[nodiscard]] bool complete() const { return check_.complete(); }
    [[nodiscard]] LiveCheckView view() const { return published_.get(); }

  private:
    Result<void> keep()
    {
        note_state();
        return keeper_.keep(check_.state());
    }

    void note_state() { view_.state = std::make_shared<const GuidedCheckState>(check_.state()); }

    void went_on(const GuidedCheckOutcome& outcome)
    {
        changed_ = true;
        observer_.went_on(outcome, check_.view(), false);
    }

    void judge_room()
    {
        view_.judging_room = false;
        tell_room();
    }

    /// Too quiet and clipped plucks are told once, before many of them are in vain.
    void judge_level()
    {
        if (!room_) return;
        const auto known = view_.room ? view_.room->problems.size() : 0;
        const auto report = room_->report();
        if (report.problems.size() != known) tell_room();
        room_.reset();
    }

    void tell_room()
    {
        view_.room = room_->report();
        changed_ = true;
        observer_.judged_room(*view_.room);
    }

    void note_level(std::span<const float> samples)
    {
        for (const float sample : samples)
            level_power_ += static_cast<double>(sample) * static_cast<double>(sample);
        level_samples_ += samples.size();
        const auto count = static_cast<double>(level_samples_);
        if (count < level_every.value() * view_.device->rate.value()) return;
        view_.level = Decibels{10.0 * std::log10(level_power_ / count + 1e-20)};
        level_power_ = 0.0;
        level_samples_ = 0;
        changed_ = true;
    }

    CheckKeeper keeper_;
    LiveCheckRequest request_;
    LiveCheckObserver& observer_;
    GuidedCheck check_;
    LiveRecording recording_;
    std::optional<RoomCheck> room_; ///< until the first plucks have shown the level
    LiveCheckView view_;
    Published<LiveCheckView> published_;
    bool changed_ = true;
    double heard_s_ = 0.0;
    double level_power_ = 0.0;
    std::size_t level_samples_ = 0;
    int plucks_ = 0;
    int gaps_ = 0;
};

Result<std::unique_ptr<LiveCheck>> LiveCheck::begin(db::Ledger ledger, HarpRecord harp,
                                                    const LiveCheckRequest& request,
                                                    const DeviceChoice& device, std::function<void()> changed,
                                                    LiveCheckObserver* observer)
{
    auto keeper = CheckKeeper::begin(std::move(ledger), std::move(harp), request);
    if (!keeper) return failure(keeper.error());
    auto listener = std::make_unique<Listener>(std::move(*keeper), request, observer);
    return std::unique_ptr<LiveCheck>{new LiveCheck(std::move(listener), device, std::move(changed))};
}

LiveCheck::LiveCheck(std::unique_ptr<Listener> listener, const DeviceChoice& device,
                     std::function<void()> changed)
    : listener_(std::move(listener)), session_(device, *listener_, std::move(changed))
{
}

LiveCheck::~LiveCheck() = default;

LiveCheckView LiveCheck::view() const
{
    return listener_->view();
}

const HarpRecord& LiveCheck::harp() const
{
    return listener_->keeper().harp();
}

bool LiveCheck::resumed() const
{
    return listener_->keeper().resumed();
}

void LiveCheck::pause(bool paused)
{
    session_.tell([this, paused] { return listener_->pause(paused); });
}

void LiveCheck::take_back()
{
    session_.tell([this] { return listener_->take_back(); });
}

void LiveCheck::leave_part()
{
    session_.tell([this] { return listener_->leave_part(); });
}

void LiveCheck::stop()
{
    session_.stop();
}

bool LiveCheck::ended() const
{
    return session_.ended();
}

Result<void> LiveCheck::wait()
{
    return session_.wait();
}

bool LiveCheck::complete() const
{
    HARPKEEP_EXPECTS(ended());
    return listener_->complete();
}

const std::vector<std::string>& LiveCheck::recordings() const
{
    return listener_->keeper().recordings();
}

Result<CheckResult> LiveCheck::store()
{
    HARPKEEP_EXPECTS(ended());
    return listener_->store();
}

} // namespace harpkeep::ui
