// SPDX-License-Identifier: MIT
#pragma once

namespace harpkeep {

/// Tells the ALSA and JACK libraries to keep their chatter to themselves. A machine without a sound card
/// prints some hundred lines otherwise, and every one of them is expected.
void silence_sound_libraries();

/// Closes the error output of the process while a driver floods it, and opens it again.
///
/// Notes  PortAudio prints a line each time its ALSA thread fails to restart a device that is gone, two
/// million
///        a second, and offers no way to stop it. The mute is put on only while a stream stands still, so
///        that messages of our own are seen at all other times.
class ErrorOutputMute {
  public:
    ErrorOutputMute() = default;
    ErrorOutputMute(const ErrorOutputMute&) = delete;
    ErrorOutputMute& operator=(const ErrorOutputMute&) = delete;
    ~ErrorOutputMute();

    void mute();
    void unmute();
    /// Leaves the error output as it is now for good: the flood will not end before the process does.
    void keep_for_ever();

  private:
    int saved_descriptor_ = -1;
};

} // namespace harpkeep
