// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/screen.hpp"

#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>

namespace harpkeep::cli {

namespace {

// A terminal is one for the process, and signals know no objects.
termios saved_settings{};
volatile std::sig_atomic_t taken_over = 0;
volatile std::sig_atomic_t end_asked = 0;

// xterm control sequences: 1049 alternate page, 25 cursor.
constexpr std::string_view enter_sequence = "\x1b[?1049h\x1b[?25l\x1b[2J";
constexpr std::string_view leave_sequence = "\x1b[0m\x1b[?25h\x1b[?1049l";

void send(std::string_view text)
{
    while (!text.empty()) {
        const ssize_t sent = write(STDOUT_FILENO, text.data(), text.size());
        if (sent <= 0) return;
        text.remove_prefix(static_cast<std::size_t>(sent));
    }
}

/// Only calls that are allowed in a signal handler.
void give_back()
{
    if (!taken_over) return;
    taken_over = 0;
    send(leave_sequence);
    tcsetattr(STDIN_FILENO, TCSANOW, &saved_settings);
}

void on_fatal_signal(int signal)
{
    give_back();
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

void on_end_signal(int)
{
    end_asked = 1;
}

} // namespace

bool end_was_asked_for()
{
    static const bool installed = [] {
        struct sigaction action {};
        action.sa_handler = &on_end_signal;
        for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaction(signal, &action, nullptr);
        return true;
    }();
    return installed && end_asked;
}

std::unique_ptr<Screen> Screen::open()
{
    if (!isatty(STDOUT_FILENO) || !isatty(STDIN_FILENO) || tcgetattr(STDIN_FILENO, &saved_settings) != 0)
        return nullptr;
    termios raw = saved_settings;
    raw.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO); // Ctrl-C stays a signal
    raw.c_cc[VMIN] = 0;
    raw.c_cc[VTIME] = 0;
    if (tcsetattr(STDIN_FILENO, TCSANOW, &raw) != 0) return nullptr;
    taken_over = 1;
    for (const int signal : {SIGABRT, SIGSEGV, SIGBUS, SIGFPE}) std::signal(signal, &on_fatal_signal);
    send(enter_sequence);
    return std::unique_ptr<Screen>{new Screen};
}

Screen::~Screen()
{
    give_back();
}

Canvas Screen::blank() const
{
    winsize size{};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_row == 0 || size.ws_col == 0) return {24, 80};
    return {size.ws_row, size.ws_col};
}

void Screen::show(const Canvas& page)
{
    send(page.changes_from(shown_));
    shown_ = page;
}

std::optional<char32_t> Screen::key()
{
    pollfd input{.fd = STDIN_FILENO, .events = POLLIN, .revents = 0};
    if (poll(&input, 1, 0) <= 0) return std::nullopt;
    char bytes[16];
    const ssize_t count = read(STDIN_FILENO, bytes, sizeof bytes);
    if (count <= 0) return std::nullopt;
    char32_t key = static_cast<unsigned char>(bytes[0]);
    if (key == 27 && count > 1) return std::nullopt; // an arrow or function key
    if (key >= U'A' && key <= U'Z') key += U'a' - U'A';
    return key;
}

} // namespace harpkeep::cli
