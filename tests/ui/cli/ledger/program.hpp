// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/temporary_folder.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <string>
#include <sys/wait.h>

namespace harpkeep::test {

using tests::TemporaryFolder;
using Json = nlohmann::json;

/// What a program printed, errors too, and its exit code.
struct Run {
    std::string text;
    int code = 0;

    [[nodiscard]] bool says(const std::string& part) const { return text.find(part) != std::string::npos; }
    [[nodiscard]] Json json() const { return Json::parse(text); }
};

/// Runs a line of the shell.
inline Run run_shell(const std::string& line)
{
    std::FILE* pipe = popen(("exec 2>&1; " + line).c_str(), "r");
    REQUIRE(pipe != nullptr);
    Run run;
    std::array<char, 4096> buffer{};
    while (const auto count = std::fread(buffer.data(), 1, buffer.size(), pipe))
        run.text.append(buffer.data(), count);
    const int status = pclose(pipe);
    run.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1 - WTERMSIG(status);
    return run;
}

inline std::string quoted(const std::string& word)
{
    std::string text = "'";
    for (const char character : word)
        text += character == '\'' ? std::string{"'\\''"} : std::string(1, character);
    return text + "'";
}

/// The program as a new user has it: with a ledger of their own, in a folder with an awkward name.
class Program {
  public:
    Program() { std::filesystem::create_directories(folder_ / "my harps \u266D"); }

    /// Given  words  as in a shell
    [[nodiscard]] Run run(const std::string& words) const
    {
        return run_shell("XDG_DATA_HOME=" + quoted(folder_ / "data") +
                         " TZ=Europe/Berlin " HARPKEEP_PROGRAM " --ledger " + quoted(ledger()) + " " + words);
    }
    /// It must work.
    Run done(const std::string& words) const
    {
        auto run = this->run(words);
        CAPTURE(words, run.text);
        REQUIRE(run.code == 0);
        return run;
    }
    Json json(const std::string& words) const { return done(words + " --json").json(); }
    /// It must be refused, with these words, and the ledger must be as before.
    void refused(const std::string& words, int code, const std::string& part) const
    {
        const auto before = done("history --actions 1000 --json").text;
        const auto run = this->run(words);
        CAPTURE(words, run.text, part);
        CHECK(run.code == code);
        CHECK(run.says(part));
        CHECK(done("history --actions 1000 --json").text == before);
    }
    [[nodiscard]] std::string ledger() const
    {
        return folder_ / "my harps \u266D/ledger of 'Larkmoor'.harpkeep";
    }
    [[nodiscard]] std::string file(const std::string& name) const { return folder_ / name; }

  private:
    TemporaryFolder folder_;
};

} // namespace harpkeep::test
