// SPDX-License-Identifier: MIT
#include "live_harp.hpp"

#include "audio/sound_writer.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <fstream>
#include <stdexcept>

namespace harpkeep::test {

namespace {

/// A named pipe that a program reads its keys from. It is held open at both ends, so that neither side waits
/// for the other to come.
class Keyboard {
  public:
    explicit Keyboard(const std::string& path)
    {
        unlink(path.c_str());
        if (mkfifo(path.c_str(), 0600) != 0 || (descriptor_ = open(path.c_str(), O_RDWR | O_CLOEXEC)) < 0)
            throw std::runtime_error{path + " cannot be made"};
    }
    Keyboard(const Keyboard&) = delete;
    Keyboard& operator=(const Keyboard&) = delete;
    ~Keyboard() { close(descriptor_); }

    /// Each key goes on a line of its own.
    void press(const std::string& keys) const
    {
        for (const char key : keys) {
            const char line[] = {key, '\n'};
            if (write(descriptor_, line, sizeof line) != sizeof line)
                throw std::runtime_error{"a key cannot be pressed"};
        }
    }

  private:
    int descriptor_ = -1;
};

} // namespace

LiveHarp::LiveHarp(const std::string& name, const std::string& layout_words)
{
    (void)run(fmt::format("harp add {} {}", name, layout_words));
}

void LiveHarp::set_sound(const std::vector<float>& samples, double speed, const std::string& faults)
{
    const auto raw = scenario_.write_samples("sound.raw", samples);
    scenario_.add_microphone("harp", fmt::format("infile \"{}\" speed {} {}", raw.string(), speed, faults));
    auto writer = SoundWriter::create(path("recording.wav").string(), {.bits_per_sample = 32}).value();
    if (!writer.write(samples) || !writer.finish())
        throw std::runtime_error{"recording.wav cannot be written"};
}

LiveHarp::Output LiveHarp::run(const std::string& arguments, const Answer& answer) const
{
    return run_program(HARPKEEP, arguments, answer);
}

LiveHarp::Output LiveHarp::run_program(const std::string& program, const std::string& arguments,
                                       const Answer& answer) const
{
    scenario_.write_configuration();
    const Keyboard keyboard{path("keys").string()};
    const std::string command = fmt::format(
        "ALSA_CONFIG_PATH='{}' JACK_NO_START_SERVER=1 timeout 900 sh -c 'echo $$ >{}; exec \"$0\" \"$@\"' "
        "'{}' {} --ledger '{}' --json 2>&1 <'{}'",
        path("alsa.conf").string(), path("process").string(), program, arguments,
        path("school.harpkeep").string(), path("keys").string());
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
        line.clear();
        if (!parsed.is_object()) continue;
        if (answer) keyboard.press(answer(parsed));
        output.lines.push_back(std::move(parsed));
    }
    const int status = pclose(pipe);
    output.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return output;
}

void LiveHarp::kill() const
{
    pid_t process = 0;
    std::ifstream{path("process")} >> process;
    if (process <= 1 || ::kill(process, SIGKILL) != 0) throw std::runtime_error{"there is nothing to end"};
}

std::vector<nlohmann::json> LiveHarp::Output::named(const std::string& event) const
{
    std::vector<nlohmann::json> found;
    for (const auto& line : lines)
        if (line.value("event", "") == event) found.push_back(line);
    return found;
}

} // namespace harpkeep::test
