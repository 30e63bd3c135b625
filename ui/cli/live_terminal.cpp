// SPDX-License-Identifier: MIT
#include "ui/cli/live_terminal.hpp"

#include "ui/cli/terminal/screen.hpp"

#include <poll.h>
#include <unistd.h>

#include <chrono>
#include <thread>

namespace harpkeep::cli {

namespace {

constexpr std::chrono::milliseconds look_every{20};
constexpr int draw_every_looks = 5;

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

void take_keys(Screen* screen, bool& input_ended, const LiveTerminal& terminal)
{
    if (screen) {
        while (const auto key = screen->key()) terminal.key(*key);
        return;
    }
    for (const char32_t key : lines_of_input(input_ended)) terminal.key(key);
}

} // namespace

void attend(const LiveTerminal& terminal, bool json)
{
    const auto screen = json ? nullptr : Screen::open();
    bool input_ended = isatty(STDIN_FILENO) != 0;
    for (int looks = 0; !terminal.ended(); ++looks) {
        if (end_was_asked_for()) terminal.stop();
        take_keys(screen.get(), input_ended, terminal);
        if (screen && looks % draw_every_looks == 0) {
            Canvas page = screen->blank();
            terminal.draw(page);
            screen->show(page);
        }
        std::this_thread::sleep_for(look_every);
    }
}

} // namespace harpkeep::cli
