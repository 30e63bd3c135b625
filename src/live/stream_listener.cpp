// SPDX-License-Identifier: MIT
#include "live/stream_listener.hpp"

#include <algorithm>
#include <utility>

namespace harpkeep {

namespace {

void move_in_time(PluckMeasurement& measurement, double by_s)
{
    measurement.start_s += by_s;
    for (PluckMeasurement& rival : measurement.rivals) rival.start_s += by_s;
}

} // namespace

StreamListener::StreamListener(Hertz rate)
    : settings_{.rate_hz = rate.value(), .estimates = true}, stream_(settings_)
{
}

std::vector<PluckEvent> StreamListener::push(std::span<const float> samples, std::uint64_t first_frame)
{
    if (!begun_) offset_s_ = static_cast<double>(first_frame) / settings_.rate_hz;
    begun_ = true;
    return placed(stream_.push(samples));
}

std::vector<PluckEvent> StreamListener::skip_to(std::uint64_t at_frame)
{
    auto events = finish();
    stream_ = PluckStream{settings_};
    offset_s_ = static_cast<double>(at_frame) / settings_.rate_hz;
    number_offset_ = highest_number_;
    begun_ = true;
    return events;
}

std::vector<PluckEvent> StreamListener::finish()
{
    return begun_ ? placed(stream_.finish()) : std::vector<PluckEvent>{};
}

std::vector<PluckEvent> StreamListener::placed(std::vector<PluckEvent> events)
{
    const Seconds by{offset_s_};
    for (PluckEvent& event : events)
        std::visit(
            [&](auto& specific) {
                specific.pluck += number_offset_;
                specific.time += by;
                highest_number_ = std::max(highest_number_, specific.pluck);
                if constexpr (requires { specific.so_far; }) move_in_time(specific.so_far, offset_s_);
                if constexpr (requires { specific.measurement; })
                    move_in_time(specific.measurement, offset_s_);
            },
            event);
    return events;
}

} // namespace harpkeep
