// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace harpkeep::test {

/// A folder of its own with sound files and an ALSA configuration of virtual microphones, for one test.
class Scenario {
  public:
    Scenario();
    Scenario(const Scenario&) = delete;
    Scenario& operator=(const Scenario&) = delete;
    ~Scenario();

    /// Writes raw float32 samples and returns the path.
    std::filesystem::path write_samples(const std::string& name, const std::vector<float>& samples) const;
    [[nodiscard]] std::vector<float> read_samples(const std::string& name) const;
    [[nodiscard]] std::filesystem::path path(const std::string& name) const { return folder_ / name; }

    /// Adds "pcm.NAME { type virtual_microphone FIELDS }".
    void add_microphone(const std::string& name, const std::string& fields);
    /// Adds any other block.
    void add_block(const std::string& block);

    /// Writes alsa.conf into the folder; probe() does so by itself.
    void write_configuration() const;

    /// What the child of one run left behind.
    struct Run {
        int exit_code = -1;
        std::vector<nlohmann::json> events;
        std::uintmax_t error_output_bytes = 0;

        [[nodiscard]] std::vector<nlohmann::json> named(const std::string& event) const;
    };
    /// Runs capture_probe with `arguments` under this configuration, at most 25 seconds.
    [[nodiscard]] Run probe(const std::string& arguments) const;

  private:
    std::filesystem::path folder_;
    std::string configuration_;
};

/// Sample k holds k / 2^23, exact in float32: each sample says where in the file it stood.
[[nodiscard]] std::vector<float> numbered_samples(std::size_t count);
[[nodiscard]] std::size_t number_of(float sample);

} // namespace harpkeep::test
