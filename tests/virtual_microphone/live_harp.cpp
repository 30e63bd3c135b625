// SPDX-License-Identifier: MIT
#include "live_harp.hpp"

#include "audio/sound_writer.hpp"

#include <fmt/format.h>

#include <sys/wait.h>

#include <cstdio>

namespace harpkeep::test {

LiveHarp::LiveHarp(const std::string& name, const std::string& layout_words)
{
    (void)run(fmt::format("harp add {} {}", name, layout_words));
}

void LiveHarp::set_sound(const std::vector<float>& samples, double speed)
{
    const auto raw = scenario_.write_samples("sound.raw", samples);
    scenario_.add_microphone("harp", fmt::format("infile \"{}\" speed {}", raw.string(), speed));
    auto writer = SoundWriter::create(path("recording.wav").string(), {.bits_per_sample = 32}).value();
    if (!writer.write(samples) || !writer.finish())
        throw std::runtime_error{"recording.wav cannot be written"};
}

LiveHarp::Output LiveHarp::run(const std::string& arguments,
                               const std::vector<std::pair<double, std::string>>& keys) const
{
    scenario_.write_configuration();
    std::string input = "true";
    for (const auto& [seconds, line] : keys) input += fmt::format("; sleep {}; echo {}", seconds, line);
    const std::string command = fmt::format(
        "({}) | ALSA_CONFIG_PATH='{}' JACK_NO_START_SERVER=1 timeout 900 '{}' {} --ledger '{}' --json 2>&1",
        input, path("alsa.conf").string(), HARPKEEP, arguments, path("school.harpkeep").string());
    Output output;
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe) return output;
    std::string line;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) {
        output.text += static_cast<char>(c);
        if (c != '\n') {
            line += static_cast<char>(c);
            continue;
        }
        auto parsed = nlohmann::json::parse(line, nullptr, false);
        if (parsed.is_object()) output.lines.push_back(std::move(parsed));
        line.clear();
    }
    const int status = pclose(pipe);
    output.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return output;
}

std::vector<nlohmann::json> LiveHarp::Output::named(const std::string& event) const
{
    std::vector<nlohmann::json> found;
    for (const auto& line : lines)
        if (line.value("event", "") == event) found.push_back(line);
    return found;
}

} // namespace harpkeep::test
