// SPDX-License-Identifier: MIT
#include "ui/support/live_tuning.hpp"

#include "live/pitch_follower.hpp"
#include "live/reference_tone.hpp"

#include <algorithm>

namespace harpkeep::ui {

namespace {

constexpr Seconds tell_pitch_every{0.1};

LiveTuningObserver& nobody()
{
    static LiveTuningObserver observer;
    return observer;
}

} // namespace

/// The tuning aid as the work of a session.
class LiveTuning::Listener : public LiveWork {
  public:
    Listener(const LiveTuningRequest& request, std::vector<TuningTarget> targets,
             LiveTuningObserver* observer)
        : request_(request),
          observer_(observer ? *observer : nobody()),
          aid_(std::move(targets), {.tolerance = request.tolerance}),
          waiting_for_tone_(request.a4_from_tone)
    {
        (void)publish();
    }

    Result<void> begin(const OpenDevice& device) override
    {
        device_ = device;
        follower_.emplace(device.rate);
        tone_.emplace(device.rate);
        changed_ = true;
        observer_.opened(device);
        return {};
    }

    Result<void> hear(const PluckEvent& event) override
    {
        changed_ = true;
        if (waiting_for_tone_) return {};
        if (const auto* began = std::get_if<PluckBegan>(&event)) {
            follower_->stop();
            followed_pluck_ = began->pluck;
            following_ = false;
        }
        if (const auto* estimated = std::get_if<PluckEstimated>(&event))
            if (!following_ && estimated->pluck == followed_pluck_ && estimated->so_far.frequency_hz > 0.0) {
                follower_->follow(estimated->so_far);
                following_ = true;
            }
        note(aid_.handle(event));
        return {};
    }

    Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) override
    {
        if (waiting_for_tone_) return hear_tone(samples);
        if (const auto pitch = follower_->push(samples, first_frame)) {
            changed_ = true;
            note(aid_.follow(pitch->time, pitch->frequency, pitch->uncertainty));
        }
        const double now_s = static_cast<double>(first_frame) / device_->rate.value();
        if (now_s - told_pitch_s_ < tell_pitch_every.value()) return {};
        const TuningView view = aid_.view();
        if (!view.sounding) return {};
        told_pitch_s_ = now_s;
        observer_.pitch(view);
        return {};
    }

    void gap(const StreamGap& gap) override
    {
        tone_->reset();
        observer_.gap(gap);
    }

    void trouble(const std::string& text) override
    {
        trouble_ = text;
        changed_ = true;
        observer_.trouble(text);
    }

    bool publish() override
    {
        if (!changed_) return false;
        changed_ = false;
        LiveTuningView view{.device = device_,
                            .trouble = trouble_,
                            .waiting_for_tone = waiting_for_tone_,
                            .a4 = request_.tuning.a4,
                            .tuning = aid_.view(),
                            .strings = std::make_shared<const std::vector<StringTuning>>(aid_.strings())};
        view.tuning.strings = view.strings.get();
        published_.set(std::move(view));
        return true;
    }

    [[nodiscard]] bool finished() const override { return false; }
    Result<void> end() override { return {}; }

    // What the player wishes, on the thread of the session.
    Result<void> choose(std::optional<StringPlace> place)
    {
        aid_.choose(place);
        changed_ = true;
        return {};
    }

    Result<void> begin_next_pass()
    {
        aid_.begin_next_pass();
        changed_ = true;
        return {};
    }

    Result<void> take_a4_from_tone()
    {
        waiting_for_tone_ = true;
        tone_->reset();
        changed_ = true;
        return {};
    }

    Result<void> choose_neighbour(int step)
    {
        const auto& targets = aid_.targets();
        const auto last = static_cast<std::ptrdiff_t>(targets.size()) - 1;
        const auto shown = aid_.view().target;
        std::ptrdiff_t index = step > 0 ? -1 : last + 1;
        for (std::size_t k = 0; shown && k < targets.size(); ++k)
            if (targets[k].place == shown->place) index = static_cast<std::ptrdiff_t>(k);
        index = std::clamp<std::ptrdiff_t>(index + step, 0, last);
        return choose(targets[static_cast<std::size_t>(index)].place);
    }

    [[nodiscard]] LiveTuningView view() const { return published_.get(); }

  private:
    Result<void> hear_tone(std::span<const float> samples)
    {
        const auto tone = tone_->push(samples);
        const auto a4 = tone ? a4_from_tone(tone->frequency) : std::nullopt;
        if (!a4) return {};
        request_.tuning.a4 = *a4;
        auto targets = tuning_targets(request_.layout, request_.tuning);
        if (!targets) return failure(targets.error());
        aid_ = TuningAid{std::move(*targets), {.tolerance = request_.tolerance}};
        waiting_for_tone_ = false;
        changed_ = true;
        observer_.took_a4(*a4);
        return {};
    }

    void note(const TuningOutcome& outcome)
    {
        if (outcome.done || outcome.sunk || outcome.pass_complete) observer_.noted(outcome, aid_.view());
        if (outcome.pass_complete) aid_.begin_next_pass();
    }

    LiveTuningRequest request_;
    LiveTuningObserver& observer_;
    TuningAid aid_;
    std::optional<OpenDevice> device_;
    std::optional<PitchFollower> follower_; ///< from begin() on
    std::optional<ReferenceTone> tone_;     ///< likewise
    bool waiting_for_tone_;
    int followed_pluck_ = -1;
    bool following_ = false;
    std::string trouble_;
    double told_pitch_s_ = -1.0;
    bool changed_ = true;
    Published<LiveTuningView> published_;
};

Result<std::unique_ptr<LiveTuning>> LiveTuning::begin(const LiveTuningRequest& request,
                                                      const DeviceChoice& device,
                                                      std::function<void()> changed,
                                                      LiveTuningObserver* observer)
{
    auto targets = tuning_targets(request.layout, request.tuning);
    if (!targets) return failure(targets.error());
    auto listener = std::make_unique<Listener>(request, std::move(*targets), observer);
    return std::unique_ptr<LiveTuning>{new LiveTuning(std::move(listener), device, std::move(changed))};
}

LiveTuning::LiveTuning(std::unique_ptr<Listener> listener, const DeviceChoice& device,
                       std::function<void()> changed)
    : listener_(std::move(listener)), session_(device, *listener_, std::move(changed))
{
}

LiveTuning::~LiveTuning() = default;

LiveTuningView LiveTuning::view() const
{
    return listener_->view();
}

void LiveTuning::begin_next_pass()
{
    session_.tell([this] { return listener_->begin_next_pass(); });
}

void LiveTuning::choose(std::optional<StringPlace> place)
{
    session_.tell([this, place] { return listener_->choose(place); });
}

void LiveTuning::choose_neighbour(int step)
{
    session_.tell([this, step] { return listener_->choose_neighbour(step); });
}

void LiveTuning::take_a4_from_tone()
{
    session_.tell([this] { return listener_->take_a4_from_tone(); });
}

void LiveTuning::stop()
{
    session_.stop();
}

bool LiveTuning::ended() const
{
    return session_.ended();
}

Result<void> LiveTuning::wait()
{
    return session_.wait();
}

} // namespace harpkeep::ui
