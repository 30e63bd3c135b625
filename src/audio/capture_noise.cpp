// SPDX-License-Identifier: MIT
#include "audio/capture_noise.hpp"

#include <alsa/asoundlib.h>

#include <dlfcn.h>
#include <fcntl.h>
#include <unistd.h>

#include <cstdio>
#include <initializer_list>

namespace harpkeep {

namespace {

void ignore_alsa_message(const char*, int, const char*, int, const char*, ...) {}
void ignore_jack_message(const char*) {}

} // namespace

void silence_sound_libraries()
{
    snd_lib_error_set_handler(&ignore_alsa_message);
    // PortAudio brings JACK along or not, as it was built; so its functions are looked up, not linked.
    using JackHandler = void (*)(const char*);
    using SetJackHandler = void (*)(JackHandler);
    for (const char* name : {"jack_set_error_function", "jack_set_info_function"})
        if (void* symbol = dlsym(RTLD_DEFAULT, name))
            reinterpret_cast<SetJackHandler>(symbol)(&ignore_jack_message);
}

ErrorOutputMute::~ErrorOutputMute()
{
    unmute();
}

void ErrorOutputMute::mute()
{
    if (saved_descriptor_ >= 0) return;
    std::fflush(stderr);
    const int saved = fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (saved >= 0 && nowhere >= 0 && dup2(nowhere, STDERR_FILENO) >= 0)
        saved_descriptor_ = saved;
    else if (saved >= 0)
        close(saved);
    if (nowhere >= 0) close(nowhere);
}

void ErrorOutputMute::unmute()
{
    if (saved_descriptor_ < 0) return;
    dup2(saved_descriptor_, STDERR_FILENO);
    close(saved_descriptor_);
    saved_descriptor_ = -1;
}

void ErrorOutputMute::keep_for_ever()
{
    if (saved_descriptor_ >= 0) close(saved_descriptor_);
    saved_descriptor_ = -1;
}

} // namespace harpkeep
