// SPDX-License-Identifier: MIT
#include "scenario.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

using harpkeep::test::number_of;
using harpkeep::test::numbered_samples;
using harpkeep::test::Scenario;

namespace {

/// A child process that is ended with the test.
class Child {
  public:
    explicit Child(std::vector<std::string> command)
    {
        std::vector<char*> arguments;
        for (std::string& word : command) arguments.push_back(word.data());
        arguments.push_back(nullptr);
        id_ = fork();
        if (id_ != 0) return;
        if (!std::freopen("/dev/null", "w", stdout) || !std::freopen("/dev/null", "w", stderr)) _exit(126);
        execv(arguments[0], arguments.data());
        _exit(127);
    }
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;
    ~Child()
    {
        send(SIGCONT);
        send(SIGTERM);
        for (int tries = 0; tries < 100 && waitpid(id_, nullptr, WNOHANG) == 0; ++tries)
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        send(SIGKILL);
        waitpid(id_, nullptr, 0);
    }
    void send(int signal) const { kill(id_, signal); }

  private:
    pid_t id_;
};

/// A JACK server on the dummy driver under a name of its own.
struct Server {
    std::string name = fmt::format("harpkeep_test_{}", getpid());
    Child child;

    Server()
        : child((setenv("JACK_DEFAULT_SERVER", name.c_str(), 1), setenv("JACK_NO_AUDIO_RESERVATION", "1", 1),
                 std::vector<std::string>{JACKD, "-n", name, "-r", "-S", "-d", "dummy", "-r", "48000", "-p",
                                          "512"}))
    {
        REQUIRE(wait_for_port(""));
    }
    /// Until the server answers and has such a port, however busy the computer is.
    static bool wait_for_port(const std::string& part_of_name)
    {
        const auto command = fmt::format("'{}' --wait '{}' >/dev/null 2>&1", JACK_SOURCE, part_of_name);
        return std::system(command.c_str()) == 0;
    }
};

} // namespace

TEST_CASE("capture from JACK: every sample arrives, and a source that goes away is noticed", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(2'000'000));
    const Server server;
    const Child source{{JACK_SOURCE, file.string(), "4"}};
    REQUIRE(Server::wait_for_port("test source"));

    const auto run = scenario.probe(fmt::format("--host jack --device 'test source' --until dead --out '{}'",
                                                scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    CHECK(run.named("end").front().at("rate_hz") == 48000);
    CHECK(run.named("dead").size() == 1); // the server goes on with exact zeros
    const auto heard = scenario.read_samples("heard.raw");
    REQUIRE(heard.size() > 48000);
    std::size_t first = 0;
    while (first < heard.size() && number_of(heard[first]) == 0) ++first;
    std::size_t end = heard.size();
    while (end > first && heard[end - 1] == 0.0F) --end;
    REQUIRE(end - first > 48000);
    std::size_t jumps = 0;
    for (std::size_t k = first + 1; k < end; ++k) jumps += number_of(heard[k]) != number_of(heard[k - 1]) + 1;
    CHECK(jumps == 0);
}

TEST_CASE("capture from JACK: a server that is ended is noticed", "[audio]")
{
    Scenario scenario;
    const Server server;
    std::thread hand{[&] {
        Server::wait_for_port("PortAudio"); // the recording is opened
        std::this_thread::sleep_for(std::chrono::milliseconds(500));
        server.child.send(SIGTERM);
    }};
    const auto run = scenario.probe("--host jack --device system --until lost");
    hand.join();

    CHECK(run.exit_code == 0);
    CHECK(run.named("lost").size() == 1);
}

TEST_CASE("capture from JACK: a server that freezes is noticed and does not take the program along",
          "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(100'000));
    scenario.add_microphone("spare", fmt::format("infile \"{}\"", file.string()));
    const Server server;
    std::thread hand{[&] {
        Server::wait_for_port("PortAudio"); // the recording is opened
        std::this_thread::sleep_for(std::chrono::milliseconds(500));
        server.child.send(SIGSTOP);
    }};
    const auto start = std::chrono::steady_clock::now();
    const auto run = scenario.probe("--host jack --device system --until lost");
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    hand.join();

    CHECK(run.exit_code == 0);
    REQUIRE(run.named("lost").size() == 1);
    CHECK(took.count() < 40.0); // a second of life, 1 s of watchdog, 2 s to give up; for ever where it hangs
}
