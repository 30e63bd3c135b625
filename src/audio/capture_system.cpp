// SPDX-License-Identifier: MIT
#include "audio/capture_system.hpp"

#include "audio/audio_device_path.hpp"
#include "audio/capture_noise.hpp"
#include "audio/capture_stream.hpp"
#include "base/expects.hpp"

#include <fmt/format.h>
#include <portaudio.h>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <optional>
#include <thread>

namespace harpkeep {

namespace {

constexpr std::chrono::seconds start_deadline{8}; // a machine with many cards takes about one second

// Ends the process that it runs in; nobody reads what it prints.
[[noreturn]] void try_to_start_and_exit()
{
    constexpr rlimit no_core{0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    std::signal(SIGABRT, SIG_DFL);
    ErrorOutputMute mute;
    mute.mute();
    const PaError started = Pa_Initialize();
    if (started == paNoError) Pa_Terminate();
    _exit(started == paNoError ? 0 : 1);
}

/// What the child left as its wait status, or nothing when it had to be ended.
std::optional<int> status_before_deadline(pid_t child)
{
    const auto deadline = std::chrono::steady_clock::now() + start_deadline;
    int status = 0;
    while (waitpid(child, &status, WNOHANG) == 0) {
        if (std::chrono::steady_clock::now() > deadline) {
            kill(child, SIGKILL);
            waitpid(child, &status, 0);
            return std::nullopt;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return status;
}

Result<void> try_in_child()
{
    const pid_t child = fork();
    if (child < 0) return {}; // no room for a process: the start itself will show what is wrong
    if (child == 0) try_to_start_and_exit();
    const auto status = status_before_deadline(child);
    if (!status)
        return failure(
            ErrorCode::unavailable,
            "the sound system did not start within 8 seconds; a sound server seems to stand still: "
            "restart it, or check a recording instead");
    if (WIFSIGNALED(*status))
        return failure(ErrorCode::unavailable,
                       "the sound configuration makes PortAudio end the program; look at ~/.asoundrc and "
                       "ALSA_CONFIG_PATH, or check a recording instead");
    return {};
}

double first_rate_taken(PaDeviceIndex index, double default_rate, int& rates_taken)
{
    const PaStreamParameters parameters{index, 1, paFloat32, 0.08, nullptr};
    double first = 0.0;
    rates_taken = 0;
    for (const double rate :
         {48000.0, 44100.0, 96000.0, 88200.0, 192000.0, 32000.0, 24000.0, 22050.0, 16000.0}) {
        if (Pa_IsFormatSupported(&parameters, nullptr, rate) != paFormatIsSupported) continue;
        if (first == 0.0) first = rate;
        ++rates_taken;
    }
    return first > 0.0 ? first : default_rate;
}

AudioDevice described(PaDeviceIndex index, const PaDeviceInfo& info)
{
    AudioDevice device{.host_api = Pa_GetHostApiInfo(info.hostApi)->name,
                       .name = info.name,
                       .input_channels = info.maxInputChannels};
    int rates_taken = 0;
    device.rate = Hertz{first_rate_taken(index, info.defaultSampleRate, rates_taken)};
    device.path = device_path(device.host_api, device.name);
    // A plug-in that refuses every rate but one does not resample.
    if (device.path == DevicePath::unknown && rates_taken == 1) device.path = DevicePath::fixed_rate;
    return device;
}

} // namespace

Result<std::unique_ptr<CaptureSystem>> CaptureSystem::start()
{
    std::unique_ptr<CaptureSystem> system{new CaptureSystem};
    if (auto ready = system->initialise(); !ready) return failure(ready.error());
    return system;
}

CaptureSystem::~CaptureSystem()
{
    if (running_ && !wedged()) Pa_Terminate();
}

Result<void> CaptureSystem::initialise()
{
    silence_sound_libraries();
    if (auto possible = try_in_child(); !possible) return possible;
    const PaError started = Pa_Initialize();
    if (started != paNoError)
        return failure(ErrorCode::unavailable,
                       fmt::format("the sound system does not start: {}; look at ~/.asoundrc",
                                   Pa_GetErrorText(started)));
    running_ = true;
    list_inputs();
    return {};
}

Result<void> CaptureSystem::rescan()
{
    if (wedged())
        return failure(ErrorCode::refused,
                       "a device of this run does not answer any more, so that new devices "
                       "cannot be looked for; end harpkeep and start it again");
    if (running_) Pa_Terminate();
    running_ = false;
    inputs_.clear();
    return initialise();
}

void CaptureSystem::list_inputs()
{
    inputs_.clear();
    for (PaDeviceIndex index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && info->maxInputChannels > 0) inputs_.push_back(described(index, *info));
    }
}

Result<std::unique_ptr<CaptureStream>> CaptureSystem::open(const AudioDevice& device,
                                                           const CaptureSettings& settings)
{
    HARPKEEP_EXPECTS(running_);
    for (PaDeviceIndex index = 0; index < Pa_GetDeviceCount(); ++index) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(index);
        if (info && device.name == info->name && device.host_api == Pa_GetHostApiInfo(info->hostApi)->name)
            return CaptureStream::open(index, device, settings, wedged_);
    }
    return failure(
        ErrorCode::not_found,
        fmt::format("the recording device \"{}\" is no longer there; plug it in again", device.name));
}

} // namespace harpkeep
