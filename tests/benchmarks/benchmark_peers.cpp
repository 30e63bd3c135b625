// SPDX-License-Identifier: MIT
// Steps of known size and a whole harp, measured by harpkeep and by aubio's pitch methods side by side.
#include "synth/synthetic_playing.hpp"
#include "tests/benchmarks/aubio_pitch.hpp"
#include "tests/benchmarks/harpkeep_step.hpp"
#include "tests/benchmarks/step_table.hpp"
#include "tests/support/step_triple.hpp"

#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <fmt/format.h>
#include <sys/resource.h>

using namespace harpkeep;
using namespace harpkeep::benchmarks;
using tests::StepTriple;

namespace {

constexpr double lead_in_s = 0.5;

struct Options {
    std::vector<std::string> sets{"wav", "freepats", "fluid"};
    std::vector<std::string> methods{"yin", "yinfft", "yinfast", "mcomb", "fcomb", "schmitt", "specacf"};
    std::vector<unsigned> buffers{8192, 4096};
    std::vector<double> snr_db{30.0, 20.0, 10.0};
    double hum_below_noise_db = 6.0;
    bool whole_recording = false;
    bool clean = true, steps = true, speed = true;
    std::uint64_t seed = 1;
};

tests::RoomNoise noise_of(double snr_db, const Options& options)
{
    return {.snr_db = snr_db,
            .reference = options.whole_recording ? tests::SnrReference::whole_recording
                                                 : tests::SnrReference::first_half_second,
            .hum_below_noise_db = options.hum_below_noise_db};
}

/// CPU time of this process, all threads.
double cpu_s()
{
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

double peak_memory_mb()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

/// The three positions as a microphone would give them.
struct PlayedTriple {
    std::vector<float> flat, natural, sharp;
};

PlayedTriple played(const StepTriple& triple, const std::optional<tests::RoomNoise>& noise,
                    std::uint64_t seed)
{
    const auto play = [&](const std::vector<double>& pluck, std::uint64_t position) {
        const auto mix =
            tests::in_a_room(pluck, triple.sample_rate_hz, noise, lead_in_s, 3 * seed + position);
        return std::vector<float>(mix.begin(), mix.end());
    };
    return {play(triple.flat, 0), play(triple.natural, 1), play(triple.sharp, 2)};
}

void add_outcomes(const StepTriple& triple, std::optional<double> lower_cents,
                  std::optional<double> upper_cents, std::vector<StepOutcome>& outcomes)
{
    const auto outcome = [&](std::optional<double> size_cents, double error_cents) {
        if (size_cents) *size_cents -= 100.0 + error_cents;
        outcomes.push_back({triple.natural_hz, size_cents});
    };
    outcome(lower_cents, triple.lower_error_cents);
    outcome(upper_cents, triple.upper_error_cents);
}

std::optional<double> step_cents(std::optional<double> a_hz, std::optional<double> b_hz)
{
    if (!a_hz || !b_hz) return std::nullopt;
    return 1200.0 * std::log2(*b_hz / *a_hz);
}

std::optional<double> harpkeep_step_cents(const std::vector<float>& a, const std::vector<float>& b,
                                          double rate_hz, double near_hz)
{
    const auto size = measure_step(a, b, rate_hz, near_hz);
    return size ? std::optional{size->size_cents} : std::nullopt;
}

std::vector<StepOutcome> outcomes_of_harpkeep(const std::vector<StepTriple>& triples,
                                              const std::vector<PlayedTriple>& sounds)
{
    std::vector<StepOutcome> outcomes;
    for (std::size_t i = 0; i < triples.size(); ++i) {
        const StepTriple& t = triples[i];
        const PlayedTriple& s = sounds[i];
        const double semitone = std::exp2(1.0 / 12.0);
        add_outcomes(t, harpkeep_step_cents(s.flat, s.natural, t.sample_rate_hz, t.natural_hz / semitone),
                     harpkeep_step_cents(s.natural, s.sharp, t.sample_rate_hz, t.natural_hz), outcomes);
    }
    return outcomes;
}

std::vector<StepOutcome> outcomes_of_aubio(const std::vector<StepTriple>& triples,
                                           const std::vector<PlayedTriple>& sounds,
                                           const AubioSettings& settings)
{
    std::vector<StepOutcome> outcomes;
    for (std::size_t i = 0; i < triples.size(); ++i) {
        const auto pitch = [&](const std::vector<float>& sound) {
            return aubio_pitch_hz(sound, triples[i].sample_rate_hz, lead_in_s, settings);
        };
        const auto flat = pitch(sounds[i].flat), natural = pitch(sounds[i].natural),
                   sharp = pitch(sounds[i].sharp);
        add_outcomes(triples[i], step_cents(flat, natural), step_cents(natural, sharp), outcomes);
    }
    return outcomes;
}

void print_steps(const std::vector<StepTriple>& triples, const std::string& title,
                 const std::optional<tests::RoomNoise>& noise, const Options& options)
{
    std::vector<PlayedTriple> sounds;
    for (std::size_t i = 0; i < triples.size(); ++i)
        sounds.push_back(played(triples[i], noise, options.seed + i));
    fmt::print("{}\n", table_head(title));
    const auto own = outcomes_of_harpkeep(triples, sounds);
    fmt::print("{}\n", table_row("harpkeep", own));
    std::vector<MethodOutcomes> others;
    for (const unsigned buffer : options.buffers)
        for (const std::string& method : options.methods) {
            others.push_back({fmt::format("{} {}", method, buffer),
                              outcomes_of_aubio(triples, sounds, {.method = method, .buffer = buffer})});
            fmt::print("{}\n", table_row(others.back().method, others.back().outcomes));
            std::fflush(stdout);
        }
    fmt::print("{}\n\n", ratio_row(own, others));
}

/// A concert harp, pass by pass, in about four minutes at 30 dB.
SyntheticRecording whole_harp(const SyntheticHarp& harp)
{
    const auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    const auto performance =
        play(harp, plan, {.second_polarisation = SecondPolarisation{}, .sympathetic_db = -40.0});
    return render_recording(harp, performance.events, {.snr_db = 30.0, .hum = MainsHum{.level_dbfs = -70.0}});
}

void print_speed(const Options& options)
{
    const auto harp =
        make_synthetic_harp(make_layout({.kind = HarpKind::pedal, .string_count = 47}).value(), {});
    const auto recording = whole_harp(harp);
    const double length_s = static_cast<double>(recording.samples.size()) / recording.sample_rate_hz;
    fmt::print("whole harp, {:.0f} s at {:.0f} Hz: seconds of one core\n", length_s,
               recording.sample_rate_hz);
    const double before_mb = peak_memory_mb();
    double started_s = cpu_s();
    const auto readings = analyse_whole_harp(harp, recording);
    const double own_s = cpu_s() - started_s;
    fmt::print("{:<18}{:>10.2f} s   {} readings of {} plucks, {:.0f} MB beside the recording\n", "harpkeep",
               own_s, readings, recording.truth.size(), peak_memory_mb() - before_mb);
    for (const unsigned buffer : options.buffers)
        for (const std::string& method : options.methods) {
            started_s = cpu_s();
            const auto frames = aubio_frames(recording.samples, recording.sample_rate_hz,
                                             {.method = method, .buffer = buffer});
            const double theirs_s = cpu_s() - started_s;
            fmt::print("{:<18}{:>10.2f} s   {} frames", fmt::format("{} {}", method, buffer), theirs_s,
                       frames);
            fmt::print(", {:.1f} times harpkeep\n", theirs_s / own_s);
            std::fflush(stdout);
        }
}

} // namespace

int main(int count, char** arguments)
{
    Options options;
    CLI::App app{
        "Measures steps of known size and a whole harp with harpkeep and with aubio's pitch methods"};
    app.add_option("--sets", options.sets, "sets of recordings")->delimiter(',');
    app.add_option("--methods", options.methods, "aubio's methods")->delimiter(',');
    app.add_option("--buffers", options.buffers, "aubio's buffer lengths")->delimiter(',');
    app.add_option("--snr-db", options.snr_db, "levels of noise")->delimiter(',');
    app.add_option("--hum-below-noise-db", options.hum_below_noise_db, "level of the mains hum");
    app.add_option("--seed", options.seed, "of the step errors and the noise");
    app.add_flag("--snr-over-whole-recording", options.whole_recording,
                 "count the signal's level over the whole note, not over its first half second");
    app.add_flag("!--no-clean", options.clean, "leave out the recordings without noise");
    app.add_flag("!--no-steps", options.steps, "leave out the steps");
    app.add_flag("!--no-speed", options.speed, "leave out the whole harp");
    CLI11_PARSE(app, count, arguments);
    try {
        if (options.steps) {
            const auto triples = tests::real_step_triples(options.sets, options.seed);
            fmt::print("error of a step in cents, median|95 % of {} steps; g: beyond 25, n: not measured\n\n",
                       2 * triples.size());
            if (options.clean) print_steps(triples, "clean", std::nullopt, options);
            for (const double snr_db : options.snr_db)
                print_steps(triples, fmt::format("{:.0f} dB", snr_db), noise_of(snr_db, options), options);
        }
        if (options.speed) print_speed(options);
    } catch (const std::exception& error) {
        fmt::print(stderr, "benchmark_peers: {}\n", error.what());
        return 1;
    }
    return 0;
}
