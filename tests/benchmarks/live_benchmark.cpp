// SPDX-License-Identifier: MIT
//
// How soon, at what cost and in how much memory a live check hears: a whole invented harp is fed to the
// engine in pieces of 10 ms, as from a microphone, as fast as it can be taken.
//     live_benchmark [MINUTES]
// Latency is counted in time of the sound from the pluck to the piece with which its first figure came, plus
// the time which that piece took to compute; the microphone adds its own latency (0.08 s asked for, read
// every 10 ms).
#include "live/guided_check.hpp"
#include "live/stream_listener.hpp"
#include "synth/synthetic_playing.hpp"

#include <fmt/format.h>

#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <vector>

namespace {

using namespace harpkeep;

constexpr double rate_hz = 48000.0;
constexpr std::size_t piece = 480;

double cpu_s()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

double resident_megabytes()
{
    std::ifstream statm{"/proc/self/statm"};
    long total = 0;
    long resident = 0;
    statm >> total >> resident;
    return static_cast<double>(resident) * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

struct Latencies {
    std::map<int, std::vector<double>> by_octave_s; ///< harp octave
    double longest_piece_s = 0.0;                   ///< longest time that one piece took to compute
};

const TrueSound* pluck_at(const SyntheticRecording& recording, double start_s)
{
    for (const TrueSound& sound : recording.truth)
        if (sound.event.kind == SoundKind::pluck && std::abs(sound.event.start_s - start_s) < 0.1)
            return &sound;
    return nullptr;
}

/// Feeds the recording once; `at_frame` is where the stream stands.
void feed(StreamListener& listener, GuidedCheck& check, const SyntheticRecording& recording,
          std::uint64_t& at_frame, Latencies& latencies)
{
    const std::uint64_t begin = at_frame;
    std::map<int, double> begun_s;
    for (std::size_t at = 0; at + piece <= recording.samples.size(); at += piece) {
        const auto start = std::chrono::steady_clock::now();
        const auto events = listener.push(std::span{recording.samples}.subspan(at, piece), at_frame);
        for (const PluckEvent& event : events) (void)check.handle(event);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        at_frame += piece;
        latencies.longest_piece_s = std::max(latencies.longest_piece_s, took.count());
        const double now_s = static_cast<double>(at_frame - begin) / rate_hz;
        for (const PluckEvent& event : events) {
            if (const auto* began = std::get_if<PluckBegan>(&event))
                begun_s[began->pluck] = began->time.value() - static_cast<double>(begin) / rate_hz;
            const auto* estimated = std::get_if<PluckEstimated>(&event);
            if (!estimated || !begun_s.contains(estimated->pluck)) continue;
            if (const TrueSound* truth = pluck_at(recording, begun_s[estimated->pluck]))
                latencies.by_octave_s[truth->event.place.harp_octave()].push_back(
                    now_s - truth->event.start_s + took.count());
            begun_s.erase(estimated->pluck);
        }
    }
}

void print(const Latencies& latencies)
{
    fmt::print("octave  plucks  first figure after (s): median  95 %   longest\n");
    for (auto [octave, values] : latencies.by_octave_s) {
        std::sort(values.begin(), values.end());
        fmt::print("{:6}  {:6}  {:30.2f} {:6.2f} {:8.2f}\n", octave, values.size(), values[values.size() / 2],
                   values[values.size() * 95 / 100], values.back());
    }
    fmt::print("longest piece of 10 ms took {:.1f} ms to compute\n", 1e3 * latencies.longest_piece_s);
}

} // namespace

int main(int argc, char** argv)
{
    const double minutes = argc > 1 ? std::atof(argv[1]) : 60.0;
    const auto layout = make_layout({}).value();
    const SyntheticHarp harp = make_synthetic_harp(layout, {.seed = 1});
    const auto performance = play(harp, plan_pass_by_pass(layout, Direction::low_to_high),
                                  {.gap_s = 2.2, .mishaps = {.knocks = 3}, .seed = 1});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 35.0, .seed = 1});

    StreamListener listener{Hertz{rate_hz}};
    auto check = GuidedCheck::begin(layout, {.closing_strings = 0}).value();
    std::uint64_t at_frame = 0;
    Latencies latencies;
    const double before_cpu_s = cpu_s();
    feed(listener, check, recording, at_frame, latencies);
    const double heard_s = static_cast<double>(at_frame) / rate_hz;
    const double share = (cpu_s() - before_cpu_s) / heard_s;
    print(latencies);
    fmt::print("kept {} readings of {}\n", check.state().readings.size(), check.plan().target_count());
    fmt::print("processor: {:.1f} % of a core\n", 100.0 * share);

    const double first_mb = resident_megabytes();
    while (static_cast<double>(at_frame) / rate_hz < 60.0 * minutes) {
        check = GuidedCheck::begin(layout, {.closing_strings = 0}).value();
        feed(listener, check, recording, at_frame, latencies);
    }
    fmt::print("memory: {:.1f} MB after the first check, {:.1f} MB after {:.0f} minutes of sound\n", first_mb,
               resident_megabytes(), static_cast<double>(at_frame) / rate_hz / 60.0);
    return 0;
}
