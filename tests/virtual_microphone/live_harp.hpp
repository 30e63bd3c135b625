// SPDX-License-Identifier: MIT
#pragma once

#include "scenario.hpp"
#include "synth/synthetic_playing.hpp"

#include <functional>
#include <string>
#include <vector>

namespace harpkeep::test {

/// A harp in a ledger of its own, with a recording that the virtual microphone plays, for one test of the
/// program.
class LiveHarp {
  public:
    /// Given  layout_words  options of `harpkeep harp add`
    LiveHarp(const std::string& name, const std::string& layout_words);

    /// Puts the sound behind the microphone "harp" and into the file recording.wav.
    ///
    /// Given  faults  fields of the virtual microphone, see settings.h
    void set_sound(const std::vector<float>& samples, double speed, const std::string& faults = {});

    /// What a run of the program printed and how it ended.
    struct Output {
        int exit_code = -1;
        std::vector<nlohmann::json> lines; ///< empty when it was no JSON
        std::string text;

        [[nodiscard]] std::vector<nlohmann::json> named(const std::string& event) const;
    };
    /// Looks at a line that the program printed and says which keys to press now; "" for none.
    using Answer = std::function<std::string(const nlohmann::json& line)>;
    /// Runs `harpkeep ARGUMENTS --ledger ... --json`, pressing keys as it goes on.
    [[nodiscard]] Output run(const std::string& arguments, const Answer& answer = {}) const;
    /// Ends the program that runs as no program can notice.
    void kill() const;
    /// Runs another program in the same surroundings.
    [[nodiscard]] Output run_program(const std::string& program, const std::string& arguments,
                                     const Answer& answer = {}) const;
    [[nodiscard]] std::filesystem::path path(const std::string& name) const { return scenario_.path(name); }

  private:
    Scenario scenario_;
};

} // namespace harpkeep::test
