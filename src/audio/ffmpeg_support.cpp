// SPDX-License-Identifier: MIT
#include "audio/ffmpeg_support.hpp"

extern "C" {
#include <libavutil/error.h>
#include <libavutil/log.h>
}

#include <array>
#include <cstdarg>
#include <cstdio>
#include <mutex>

namespace harpkeep::ffmpeg {

namespace {

std::string& last_message()
{
    thread_local std::string message;
    return message;
}

void keep_message(void* /*source*/, int level, const char* format, va_list arguments)
{
    if (level > AV_LOG_ERROR) return;
    std::array<char, 512> text{};
    std::vsnprintf(text.data(), text.size(), format, arguments);
    std::string message = text.data();
    while (!message.empty() && (message.back() == '\n' || message.back() == ' ')) message.pop_back();
    if (!message.empty()) last_message() = message;
}

} // namespace

void catch_log()
{
    static std::once_flag once;
    std::call_once(once, [] { av_log_set_callback(keep_message); });
    forget_last_message();
}

void forget_last_message()
{
    last_message().clear();
}

std::string describe(int error)
{
    std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
    av_strerror(error, text.data(), text.size());
    std::string description = text.data();
    if (!last_message().empty()) description += " (" + last_message() + ")";
    return description;
}

std::string file_url(const std::string& path)
{
    return "file:" + path;
}

} // namespace harpkeep::ffmpeg
