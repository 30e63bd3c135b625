// SPDX-License-Identifier: MIT
#include "ui/support/live_session.hpp"

#include "live/stream_listener.hpp"

#include <chrono>

namespace harpkeep::ui {

namespace {

constexpr std::chrono::milliseconds poll_every{10};

/// Hands what the microphone brings to the engine, and what the engine finds to the work.
struct Ear {
    PluckListener& listener;
    LiveWork& work;
    MicrophoneTrouble trouble{};
    Result<void> state{};

    void hear_all(const std::vector<PluckEvent>& events)
    {
        for (const PluckEvent& event : events)
            if (state) state = work.hear(event);
    }

    void operator()(const MicrophoneEvent& event)
    {
        if (!state) return;
        if (trouble(event)) work.trouble(trouble.text());
        if (const auto* broken = std::get_if<StreamBroken>(&event)) {
            hear_all(listener.skip_to(broken->at_frame));
            work.gap(broken->gap);
        } else if (const auto* back = std::get_if<DeviceBack>(&event)) {
            hear_all(listener.skip_to(back->at_frame));
        } else if (const auto* heard = std::get_if<SamplesHeard>(&event)) {
            state = work.sound(heard->samples, heard->first_frame);
            if (state) hear_all(listener.push(heard->samples, heard->first_frame));
        }
    }
};

} // namespace

LiveSession::LiveSession(DeviceChoice choice, LiveWork& work, std::function<void()> changed)
    : choice_(std::move(choice)), work_(work), changed_(std::move(changed)), thread_([this] { run(); })
{
}

LiveSession::~LiveSession()
{
    stop();
    if (thread_.joinable()) thread_.join();
}

void LiveSession::tell(Command command)
{
    {
        const std::lock_guard lock{mutex_};
        commands_.push_back(std::move(command));
    }
    told_.notify_one();
}

void LiveSession::stop()
{
    {
        const std::lock_guard lock{mutex_};
        stop_asked_ = true;
    }
    told_.notify_one();
}

Result<void> LiveSession::wait()
{
    if (thread_.joinable()) thread_.join();
    return result_;
}

void LiveSession::run()
{
    result_ = listen();
    (void)work_.publish();
    ended_ = true;
    if (changed_) changed_();
}

void LiveSession::show()
{
    if (work_.publish() && changed_) changed_();
}

Result<void> LiveSession::listen()
{
    auto open = open_microphone(choice_);
    if (!open) return failure(open.error());
    Microphone& microphone = *open->microphone;
    const Hertz rate = microphone.rate();
    if (auto begun = work_.begin({microphone.device(), rate, open->warning}); !begun) return begun;
    show();

    StreamListener listener{rate};
    Ear ear{listener, work_};
    while (ear.state && !work_.finished()) {
        {
            const std::lock_guard lock{mutex_};
            if (stop_asked_ && commands_.empty()) break;
        }
        if (auto obeyed = obey(); !obeyed) ear.state = obeyed;
        microphone.poll([&](const MicrophoneEvent& event) { ear(event); });
        show();
        rest();
    }
    ear.hear_all(listener.finish());
    open->microphone.reset();
    auto ended = work_.end();
    return ear.state ? ended : ear.state;
}

Result<void> LiveSession::obey()
{
    std::vector<Command> commands;
    {
        const std::lock_guard lock{mutex_};
        commands.swap(commands_);
    }
    for (const Command& command : commands)
        if (auto done = command(); !done) return done;
    return {};
}

void LiveSession::rest()
{
    std::unique_lock lock{mutex_};
    told_.wait_for(lock, poll_every, [this] { return stop_asked_ || !commands_.empty(); });
}

} // namespace harpkeep::ui
