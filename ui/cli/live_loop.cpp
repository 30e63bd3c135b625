// SPDX-License-Identifier: MIT
#include "ui/cli/live_loop.hpp"

#include <poll.h>
#include <unistd.h>

#include <chrono>
#include <thread>

namespace harpkeep::cli {

namespace {

constexpr std::chrono::milliseconds poll_every{10};
constexpr int draw_every_polls = 10;

/// First letters of the lines that came on the input since the last call.
std::vector<char32_t> lines_of_input(bool& at_end)
{
    std::vector<char32_t> keys;
    pollfd input{.fd = STDIN_FILENO, .events = POLLIN, .revents = 0};
    while (!at_end && poll(&input, 1, 0) > 0) {
        char bytes[256];
        const ssize_t count = read(STDIN_FILENO, bytes, sizeof bytes);
        at_end = count <= 0;
        bool begins = true;
        for (ssize_t k = 0; k < count; ++k) {
            if (begins && bytes[k] != '\n') keys.push_back(static_cast<unsigned char>(bytes[k]));
            begins = bytes[k] == '\n';
        }
    }
    return keys;
}

/// Hands what the microphone brings to the engine and what the engine finds to the work.
struct Ear {
    PluckListener& listener;
    LiveWork& work;
    MicrophoneTrouble trouble;
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
        } else if (const auto* back = std::get_if<DeviceBack>(&event)) {
            hear_all(listener.skip_to(back->at_frame));
        } else if (const auto* heard = std::get_if<SamplesHeard>(&event)) {
            state = work.sound(heard->samples, heard->first_frame);
            if (state) hear_all(listener.push(heard->samples, heard->first_frame));
        }
    }
};

Result<void> take_keys(Screen* screen, bool& input_ended, LiveWork& work)
{
    if (screen) {
        while (const auto key = screen->key())
            if (auto taken = work.key(*key); !taken) return taken;
        return {};
    }
    for (const char32_t key : lines_of_input(input_ended))
        if (auto taken = work.key(key); !taken) return taken;
    return {};
}

} // namespace

Result<void> run_live(Microphone& microphone, PluckListener& listener, LiveWork& work, bool json)
{
    const auto screen = json ? nullptr : Screen::open();
    Ear ear{listener, work, {}};
    bool input_ended = isatty(STDIN_FILENO) != 0;
    int polls = 0;
    while (!work.finished() && !end_was_asked_for()) {
        microphone.poll([&](const MicrophoneEvent& event) { ear(event); });
        if (!ear.state) return ear.state;
        if (auto taken = take_keys(screen.get(), input_ended, work); !taken) return taken;
        if (screen && polls++ % draw_every_polls == 0) {
            Canvas page = screen->blank();
            work.draw(page);
            screen->show(page);
        }
        std::this_thread::sleep_for(poll_every);
    }
    ear.hear_all(listener.finish());
    return ear.state;
}

} // namespace harpkeep::cli
