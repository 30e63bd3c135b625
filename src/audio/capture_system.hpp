// SPDX-License-Identifier: MIT
#pragma once

#include "audio/audio_device.hpp"
#include "base/result.hpp"

#include <memory>
#include <vector>

namespace harpkeep {

class CaptureStream;
struct CaptureSettings;

/// The sound system of the machine: PortAudio started, its chatter on the error output silenced, its inputs
/// listed.
///
/// Notes      One at a time: PortAudio is one for the process. A stream that cannot be stopped (its driver
///            hangs) keeps PortAudio up for good, for ending it would hang too; from then on the list of
///            devices cannot be read again, but other devices of the list can still be opened.
class CaptureSystem {
  public:
    /// Starts PortAudio.
    ///
    /// Returns  the system; unavailable when the sound configuration makes PortAudio fail, abort (its asserts
    ///          are live) or hang, which is tried out in a child process first
    [[nodiscard]] static Result<std::unique_ptr<CaptureSystem>> start();

    CaptureSystem(const CaptureSystem&) = delete;
    CaptureSystem& operator=(const CaptureSystem&) = delete;
    ~CaptureSystem();

    /// All devices that can record, as of the last start or rescan. A busy device may be missing.
    [[nodiscard]] const std::vector<AudioDevice>& inputs() const { return inputs_; }

    /// Looks for devices again by ending and starting PortAudio, the only way in which it sees a device come.
    ///
    /// Given    no stream is open
    /// Returns  refused when a stream hangs; unavailable when the start fails
    [[nodiscard]] Result<void> rescan();

    /// Opens and starts a device of the list, found by its names.
    [[nodiscard]] Result<std::unique_ptr<CaptureStream>> open(const AudioDevice& device,
                                                              const CaptureSettings& settings);

    /// Whether a stream hangs and PortAudio is up for good.
    [[nodiscard]] bool wedged() const { return *wedged_; }

  private:
    CaptureSystem() = default;
    [[nodiscard]] Result<void> initialise();
    void list_inputs();

    bool running_ = false;
    std::shared_ptr<bool> wedged_ = std::make_shared<bool>(false); ///< shared with the streams
    std::vector<AudioDevice> inputs_;
};

} // namespace harpkeep
