// SPDX-License-Identifier: MIT
// Makes an hour of sound in several kinds of files and prints how much memory the command line takes for
// each.
#include "audio/sound_writer.hpp"
#include "synth/synthetic_playing.hpp"
#include "tests/support/child_process.hpp"
#include "tests/support/temporary_folder.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <fcntl.h>
#include <filesystem>
#include <sys/resource.h>

using namespace harpkeep;

namespace {

constexpr double megabyte = 1024.0 * 1024.0;

struct FileKind {
    const char* name;
    int channels = 1, bits = 24;
};
constexpr FileKind kinds[] = {
    {"mono.wav", 1, 24}, {"stereo.wav", 2, 16}, {"stereo.flac", 2, 24}, {"stereo.m4a", 2, 16}};

/// A concert harp, pass by pass, in some four minutes.
SyntheticRecording whole_harp()
{
    const auto harp =
        make_synthetic_harp(make_layout({.kind = HarpKind::pedal, .string_count = 47}).value(), {});
    const auto performance = play(harp, plan_pass_by_pass(harp.layout, Direction::low_to_high),
                                  {.second_polarisation = SecondPolarisation{}, .sympathetic_db = -40.0});
    return render_recording(harp, performance.events, {.snr_db = 30.0, .hum = MainsHum{.level_dbfs = -70.0}});
}

Result<void> write_hour(const SyntheticRecording& harp, const std::string& path, const FileKind& kind,
                        double minutes)
{
    auto writer = SoundWriter::create(path, {.sample_rate_hz = static_cast<int>(harp.sample_rate_hz),
                                             .channels = kind.channels,
                                             .bits_per_sample = kind.bits});
    if (!writer) return failure(writer.error());
    std::vector<float> frames;
    for (const float sample : harp.samples)
        for (int channel = 0; channel < kind.channels; ++channel)
            frames.push_back(channel == 0 ? sample : 0.7F * sample);
    const auto wanted = static_cast<std::uint64_t>(60.0 * minutes * harp.sample_rate_hz);
    while (writer->position() < wanted)
        if (const auto written = writer->write(frames); !written) return failure(written.error());
    return writer->finish();
}

std::vector<FileKind> wanted(const std::vector<std::string>& names)
{
    std::vector<FileKind> result;
    for (const FileKind& kind : kinds)
        if (std::count(names.begin(), names.end(), kind.name) > 0) result.push_back(kind);
    return result;
}

/// Made in processes of their own: what they take must not count for the program that is measured.
int make_files(const std::string& folder, const std::vector<std::string>& names, double minutes)
{
    const SyntheticRecording harp = whole_harp();
    for (const FileKind& kind : wanted(names))
        if (const auto done = write_hour(harp, folder + "/" + kind.name, kind, minutes); !done) {
            fmt::print(stderr, "{}\n", done.error().message);
            return 1;
        }
    return 0;
}

struct Taken {
    int exit_code = 0;
    double peak_mb = 0.0, cpu_s = 0.0;
};

/// Runs the program to its end; what it prints is not shown.
Taken run(const std::vector<std::string>& words)
{
    const pid_t pid = fork();
    if (pid < 0) throw std::runtime_error("no process could be made");
    if (pid == 0) {
        std::vector<char*> arguments;
        for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
        arguments.push_back(nullptr);
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDOUT_FILENO);
        execv(arguments[0], arguments.data());
        _exit(127);
    }
    int status = 0;
    rusage usage{};
    wait4(pid, &status, 0, &usage);
    const auto seconds = [](const timeval& t) {
        return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    return {.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1,
            .peak_mb = static_cast<double>(usage.ru_maxrss) / 1024.0,
            .cpu_s = seconds(usage.ru_utime) + seconds(usage.ru_stime)};
}

} // namespace

int main(int count, char** arguments)
{
    CLI::App app{"Memory that the command line takes for an hour of sound"};
    std::string program = HARPKEEP_PROGRAM;
    double minutes = 60.0;
    std::vector<std::string> files;
    for (const FileKind& kind : kinds) files.emplace_back(kind.name);
    app.add_option("--program", program, "the command line");
    app.add_option("--files", files, "which of " + fmt::format("{}", fmt::join(files, ", ")))
        ->delimiter(',')
        ->check(CLI::IsMember(files));
    app.add_option("--minutes", minutes, "length of each file");
    CLI11_PARSE(app, count, arguments);
    try {
        const tests::TemporaryFolder folder;
        const std::string path = folder.path().string(), ledger = path + "/ledger.harpkeep";
        if (test::ChildProcess([&] { return make_files(path, files, minutes); }).wait() != 0) return 1;
        if (run({program, "--ledger", ledger, "harp", "add", "Heron"}).exit_code != 0) return 1;
        fmt::print("{:.0f} minutes, peak of the resident set\n{:<14}{:>10}{:>22}{:>22}\n", minutes, "",
                   "file", "pluck", "check");
        for (const FileKind& kind : wanted(files)) {
            const std::string file = path + "/" + kind.name;
            std::string line = fmt::format("{:<14}{:>7.0f} MB", kind.name,
                                           static_cast<double>(std::filesystem::file_size(file)) / megabyte);
            for (const std::vector<std::string>& words :
                 {std::vector<std::string>{program, "pluck", file},
                  {program, "--ledger", ledger, "check", "--harp", "Heron", "--no-store", file}}) {
                const Taken taken = run(words);
                line += fmt::format("{:>22}",
                                    taken.exit_code == 0
                                        ? fmt::format("{:.0f} MB in {:.0f} s", taken.peak_mb, taken.cpu_s)
                                        : fmt::format("failed with {}", taken.exit_code));
            }
            fmt::print("{}\n", line);
            std::fflush(stdout);
        }
    } catch (const std::exception& error) {
        fmt::print(stderr, "memory_benchmark: {}\n", error.what());
        return 1;
    }
    return 0;
}
