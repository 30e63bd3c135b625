// SPDX-License-Identifier: MIT
#include "ui/cli/live_tuning.hpp"

#include "live/pitch_follower.hpp"
#include "live/stream_listener.hpp"
#include "live/tuning_aid.hpp"
#include "ui/cli/live_json.hpp"
#include "ui/cli/live_loop.hpp"
#include "ui/cli/terminal/tuning_page.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::cli {

namespace {

constexpr Seconds print_every{0.1};
constexpr Cents sure_of_tone{0.5}; // a reference tone must be known this well

/// A tuning aid as work of the live loop.
class TuningWork : public LiveWork {
  public:
    TuningWork(const LiveTuningRequest& request, Hertz rate, std::vector<TuningTarget> targets, bool json)
        : request_(request),
          rate_(rate),
          json_(json),
          follower_(rate),
          aid_(std::move(targets), {.tolerance = request.tolerance}),
          waiting_for_tone_(request.a4_from_tone)
    {
    }

    Result<void> hear(const PluckEvent& event) override
    {
        if (waiting_for_tone_) return hear_tone(event);
        if (const auto* began = std::get_if<PluckBegan>(&event)) {
            follower_.stop();
            followed_pluck_ = began->pluck;
            following_ = false;
        }
        if (const auto* estimated = std::get_if<PluckEstimated>(&event))
            if (!following_ && estimated->pluck == followed_pluck_ && estimated->so_far.frequency_hz > 0.0) {
                follower_.follow(estimated->so_far);
                following_ = true;
            }
        note(aid_.handle(event));
        return {};
    }

    Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) override
    {
        if (const auto pitch = follower_.push(samples, first_frame))
            note(aid_.follow(pitch->time, pitch->frequency, pitch->uncertainty));
        now_s_ = static_cast<double>(first_frame) / rate_.value();
        if (json_ && aid_.view().sounding && now_s_ - printed_s_ >= print_every.value()) {
            printed_s_ = now_s_;
            print_event(pitch_json(aid_.view()));
        }
        return {};
    }

    void trouble(const std::string& text) override
    {
        trouble_ = text;
        if (json_) print_event({{"event", "microphone"}, {"trouble", text}});
    }

    Result<void> key(char32_t key) override
    {
        if (key == U'q') stopped_ = true;
        if (key == U'p') aid_.begin_next_pass();
        if (key == U't') waiting_for_tone_ = true;
        if (key == U'a') aid_.choose(std::nullopt);
        if (key == U'j') choose_neighbour(-1);
        if (key == U'k') choose_neighbour(1);
        return {};
    }

    void draw(Canvas& page) override
    {
        const std::string trouble =
            waiting_for_tone_ ? "Sound the A to tune to: a fork, an oboe, any A." : trouble_;
        draw_tuning(
            page, aid_.view(), request_.layout,
            {.harp_name = request_.harp_name,
             .tuned_to = fmt::format("A4 {}, {}", format_hertz(request_.tuning.a4, 1), request_.tuned_to),
             .trouble = trouble,
             .tolerance = request_.tolerance});
    }

    [[nodiscard]] bool finished() const override { return stopped_; }

  private:
    Result<void> hear_tone(const PluckEvent& event)
    {
        const auto* estimated = std::get_if<PluckEstimated>(&event);
        if (!estimated || estimated->so_far.frequency_hz <= 0.0 ||
            estimated->so_far.uncertainty_cents > sure_of_tone.value())
            return {};
        const auto a4 = a4_from_tone(Hertz{estimated->so_far.frequency_hz});
        if (!a4) return {};
        request_.tuning.a4 = *a4;
        auto targets = tuning_targets(request_.layout, request_.tuning);
        if (!targets) return failure(targets.error());
        aid_ = TuningAid{std::move(*targets), {.tolerance = request_.tolerance}};
        waiting_for_tone_ = false;
        if (json_) print_event({{"event", "a4"}, {"a4_hz", a4->value()}});
        return {};
    }

    void note(const TuningOutcome& outcome)
    {
        if (json_ && outcome.done) print_event({{"event", "done"}, {"place", harp_name(*outcome.done)}});
        if (json_ && outcome.sunk)
            for (const StringTuning& string : aid_.strings())
                if (string.place == *outcome.sunk)
                    print_event({{"event", "sunk"},
                                {"place", harp_name(string.place)},
                                {"by_cents", string.sank->value()}});
        if (!outcome.pass_complete) return;
        if (json_) print_event({{"event", "pass-complete"}, {"pass", aid_.view().pass}});
        aid_.begin_next_pass();
    }

    void choose_neighbour(int step)
    {
        const auto& targets = aid_.targets();
        const auto shown = aid_.view().target;
        std::ptrdiff_t index = step > 0 ? -1 : static_cast<std::ptrdiff_t>(targets.size());
        for (std::size_t k = 0; shown && k < targets.size(); ++k)
            if (targets[k].place == shown->place) index = static_cast<std::ptrdiff_t>(k);
        index = std::clamp<std::ptrdiff_t>(index + step, 0, static_cast<std::ptrdiff_t>(targets.size()) - 1);
        aid_.choose(targets[static_cast<std::size_t>(index)].place);
    }

    LiveTuningRequest request_;
    Hertz rate_;
    bool json_;
    PitchFollower follower_;
    TuningAid aid_;
    bool waiting_for_tone_;
    int followed_pluck_ = -1;
    bool following_ = false;
    bool stopped_ = false;
    std::string trouble_;
    double now_s_ = 0.0;
    double printed_s_ = -1.0;
};

} // namespace

Result<void> run_live_tuning(const LiveTuningRequest& request, bool json)
{
    auto targets = tuning_targets(request.layout, request.tuning);
    if (!targets) return failure(targets.error());
    auto open = open_microphone(request.device);
    if (!open) return failure(open.error());
    const Hertz rate = open->microphone->rate();
    if (json)
        print_event({{"event", "listening"},
                    {"device", device_json(open->microphone->device())},
                    {"warning", open->warning}});
    StreamListener listener{rate};
    TuningWork work{request, rate, std::move(*targets), json};
    work.trouble(open->warning);
    return run_live(*open->microphone, listener, work, json);
}

} // namespace harpkeep::cli
