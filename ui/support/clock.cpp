// SPDX-License-Identifier: MIT
#include "ui/support/clock.hpp"

#include <array>
#include <chrono>
#include <ctime>
#include <unistd.h>

namespace harpkeep::ui {

Moment now()
{
    const auto since_epoch = std::chrono::system_clock::now().time_since_epoch();
    const auto ms = std::chrono::duration_cast<std::chrono::milliseconds>(since_epoch).count();
    const std::time_t seconds = static_cast<std::time_t>(ms / 1000);
    std::tm local{};
    localtime_r(&seconds, &local);
    return {ms, static_cast<int>(local.tm_gmtoff / 60)};
}

db::Author author()
{
    std::array<char, 256> name{};
    const bool known = gethostname(name.data(), name.size() - 1) == 0 && name[0] != '\0';
    return {now(), known ? name.data() : "unnamed computer"};
}

int local_offset_minutes(Date date, int hour, int minute)
{
    const Date day = first_day(date);
    std::tm local{};
    local.tm_year = day.year - 1900;
    local.tm_mon = day.month - 1;
    local.tm_mday = day.day;
    local.tm_hour = hour;
    local.tm_min = minute;
    local.tm_isdst = -1;
    std::mktime(&local);
    return static_cast<int>(local.tm_gmtoff / 60);
}

} // namespace harpkeep::ui
