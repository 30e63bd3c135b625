// SPDX-License-Identifier: MIT
#include "live/stream_listener.hpp"

#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 48000.0;

/// Two seconds of silence with a plucked 220 Hz tone of eight partials from half a second on.
std::vector<float> one_pluck()
{
    std::vector<float> samples(2 * 48000);
    for (std::size_t n = 24000; n < samples.size(); ++n) {
        const double t = static_cast<double>(n - 24000) / rate_hz;
        double sum = 0.0;
        for (int k = 1; k <= 8; ++k)
            sum += 0.2 / k * std::exp(-t * (1.0 + 0.3 * k)) *
                   std::sin(2.0 * std::numbers::pi * 220.0 * k * t + k);
        samples[n] = static_cast<float>(sum);
    }
    return samples;
}

template <class Event>
std::vector<Event> of_kind(const std::vector<PluckEvent>& events)
{
    std::vector<Event> found;
    for (const PluckEvent& event : events)
        if (const auto* specific = std::get_if<Event>(&event)) found.push_back(*specific);
    return found;
}

} // namespace

TEST_CASE("stream listener: after a hole times and numbers go on", "[live]")
{
    const auto pluck = one_pluck();
    StreamListener listener{Hertz{rate_hz}};
    std::vector<PluckEvent> events = listener.push(pluck, 0);
    const std::uint64_t after_hole = 96000 + 777;
    for (const auto& event : listener.skip_to(after_hole)) events.push_back(event);
    for (const auto& event : listener.push(pluck, after_hole)) events.push_back(event);
    for (const auto& event : listener.finish()) events.push_back(event);

    const auto ended = of_kind<PluckEnded>(events);
    REQUIRE(ended.size() == 2);
    CHECK(ended[0].pluck < ended[1].pluck);
    // the engine names an onset to some milliseconds
    CHECK(ended[0].measurement.start_s == Approx(0.5).margin(0.02));
    CHECK(ended[1].measurement.start_s == Approx(0.5 + after_hole / rate_hz).margin(0.02));
    CHECK(interval(Hertz{220.0}, Hertz{ended[1].measurement.frequency_hz}).value() ==
          Approx(0.0).margin(0.1));
}

TEST_CASE("stream listener: estimates come while the string sounds", "[live]")
{
    const auto pluck = one_pluck();
    StreamListener listener{Hertz{rate_hz}};
    std::vector<double> estimate_times_s;
    for (std::size_t at = 0; at < pluck.size(); at += 480)
        for (const auto& event :
             of_kind<PluckEstimated>(listener.push(std::span{pluck}.subspan(at, 480), at)))
            estimate_times_s.push_back(event.time.value());
    REQUIRE(estimate_times_s.size() >= 2);
    CHECK(estimate_times_s.front() < 0.5 + 0.8); // a string under 262 Hz
}
