// SPDX-License-Identifier: MIT
#include "scenario.hpp"

#include <fmt/format.h>

#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>

namespace harpkeep::test {

namespace {

std::filesystem::path fresh_folder()
{
    std::string pattern = (std::filesystem::temp_directory_path() / "harpkeep_capture_XXXXXX").string();
    return mkdtemp(pattern.data());
}

} // namespace

Scenario::Scenario() : folder_(fresh_folder())
{
    // PortAudio aborts when every device of a private configuration opens; "default" never does.
    const auto silence = write_samples("silence.raw", std::vector<float>(16));
    configuration_ = fmt::format("pcm_type.virtual_microphone {{ lib \"{}\" }}\n", VIRTUAL_MICROPHONE_PLUGIN);
    add_microphone("default", fmt::format("infile \"{}\" busy 1", silence.string()));
}

Scenario::~Scenario()
{
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

std::filesystem::path Scenario::write_samples(const std::string& name,
                                              const std::vector<float>& samples) const
{
    std::ofstream file{folder_ / name, std::ios::binary};
    file.write(reinterpret_cast<const char*>(samples.data()),
               static_cast<std::streamsize>(samples.size() * sizeof(float)));
    return folder_ / name;
}

std::vector<float> Scenario::read_samples(const std::string& name) const
{
    std::ifstream file{folder_ / name, std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    std::vector<float> samples(bytes.size() / sizeof(float));
    std::copy_n(bytes.data(), samples.size() * sizeof(float), reinterpret_cast<char*>(samples.data()));
    return samples;
}

void Scenario::add_microphone(const std::string& name, const std::string& fields)
{
    add_block(fmt::format("pcm.{} {{ type virtual_microphone {} }}", name, fields));
}

void Scenario::add_block(const std::string& block)
{
    configuration_ += block + "\n";
}

void Scenario::write_configuration() const
{
    std::ofstream{folder_ / "alsa.conf"} << configuration_;
}

Scenario::Run Scenario::probe(const std::string& arguments) const
{
    write_configuration();
    const auto errors = folder_ / "errors.txt";
    const std::string command =
        fmt::format("ALSA_CONFIG_PATH='{}' JACK_NO_START_SERVER=1 timeout 25 '{}' {} 2>'{}'",
                    (folder_ / "alsa.conf").string(), CAPTURE_PROBE, arguments, errors.string());
    Run run;
    FILE* output = popen(command.c_str(), "r");
    if (!output) return run;
    std::string line;
    for (int c = std::fgetc(output); c != EOF; c = std::fgetc(output)) {
        if (c != '\n') {
            line += static_cast<char>(c);
            continue;
        }
        run.events.push_back(nlohmann::json::parse(line));
        line.clear();
    }
    const int status = pclose(output);
    run.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    run.error_output_bytes = std::filesystem::file_size(errors);
    return run;
}

std::vector<nlohmann::json> Scenario::Run::named(const std::string& event) const
{
    std::vector<nlohmann::json> found;
    for (const auto& candidate : events)
        if (candidate.at("event") == event) found.push_back(candidate);
    return found;
}

std::vector<float> numbered_samples(std::size_t count)
{
    std::vector<float> samples(count);
    for (std::size_t k = 0; k < count; ++k) samples[k] = std::ldexp(static_cast<float>(k), -23);
    return samples;
}

std::size_t number_of(float sample)
{
    return static_cast<std::size_t>(std::ldexp(sample, 23));
}

} // namespace harpkeep::test
