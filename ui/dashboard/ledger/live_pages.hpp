// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ledger/live_models.hpp"
#include "ui/dashboard/source.hpp"

#include <atomic>
#include <memory>
#include <optional>
#include <string>

namespace harpkeep::dashboard {

/// The live sessions of a window: at most one check or one tuning at a time, for PortAudio is one for the
/// process.
///
/// Notes  All but live() belongs to the thread that asks the source.
class LivePages {
  public:
    struct Facts {
        const db::Ledger& ledger;
        const HarpRecord& harp;
        const ToleranceSettings& tolerance;
        const Query& query;
    };

    [[nodiscard]] Result<PageModel> guided(const Facts& facts);
    [[nodiscard]] Result<PageModel> tuning(const Facts& facts);

    /// Given  ledger_path  opened once more for the session
    [[nodiscard]] Result<Outcome> start(const StartGuided& wish, const Facts& facts,
                                        const db::Author& author);
    [[nodiscard]] Result<Outcome> start(const StartTuning& wish, const Facts& facts);
    /// Everything that is told to a session under way; nothing happens when there is none.
    [[nodiscard]] Result<Outcome> tell(const Action& action);

    /// From any thread: something is to be drawn that no hand moved.
    [[nodiscard]] bool live() const { return live_; }
    void use_devices(std::function<Result<std::vector<AudioDevice>>()> devices)
    {
        devices_ = std::move(devices);
    }
    /// How a virtual device of the tests keeps time.
    void set_clock_factor(double factor) { clock_factor_ = factor; }

  private:
    [[nodiscard]] GuidedModel set_up(const Facts& facts);
    [[nodiscard]] Result<Outcome> stop_check();
    [[nodiscard]] Result<Outcome> stop_tuning();
    [[nodiscard]] ui::DeviceChoice choice_of(const std::string& device) const;
    /// The session ended by itself: what became of it.
    [[nodiscard]] Result<void> take_end();

    std::function<Result<std::vector<AudioDevice>>()> devices_ = ui::recording_devices;
    double clock_factor_ = 1.0;
    std::unique_ptr<ui::LiveCheck> check_;
    std::unique_ptr<ui::LiveTuning> tuning_;
    ui::LiveTuningRequest tuning_request_;
    std::string tuned_in_;
    std::string temperament_;
    std::string ended_; ///< how the last check ended, shown until the page is left
    bool stored_ = false;
    std::size_t recent_for_ = 0; ///< readings that recent_ was made from
    std::vector<AcceptedReading> recent_;
    std::atomic<bool> live_ = false;
};

} // namespace harpkeep::dashboard
