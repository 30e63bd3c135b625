// SPDX-License-Identifier: MIT
#include "tests/ui/cli/ledger/program.hpp"

#include <fmt/format.h>
#include <set>
#include <sstream>

using namespace harpkeep::test;

namespace {

std::set<std::string> lines_of(const std::string& text)
{
    std::set<std::string> lines;
    std::istringstream stream{text};
    for (std::string line; std::getline(stream, line);)
        if (!line.empty()) lines.insert(line);
    return lines;
}

/// Shell functions that stand for the program (so that it is found, with its ledger) and for the shell's own.
std::string with_program(const Program& program)
{
    return fmt::format("harpkeep() {{ {} --ledger {} \"$@\"; }}; ", HARPKEEP_PROGRAM,
                       quoted(program.ledger()));
}

/// What bash offers after these words; the last one is being written.
std::set<std::string> offered_by_bash(const Program& program, const std::vector<std::string>& words)
{
    std::string list;
    for (const auto& word : words) list += " " + quoted(word);
    const auto script = program.file("completion.bash");
    harpkeep::tests::write_bytes(script, program.done("completion bash").text);
    return lines_of(run_shell("bash -c " + quoted(with_program(program) + "source " + quoted(script) +
                                                  "; COMP_WORDS=(harpkeep" + list +
                                                  "); COMP_CWORD=" + std::to_string(words.size()) +
                                                  "; _harpkeep; printf '%s\\n' \"${COMPREPLY[@]}\""))
                        .text);
}

std::set<std::string> offered_by_zsh(const Program& program, const std::vector<std::string>& words)
{
    std::string list;
    for (const auto& word : words) list += " " + quoted(word);
    const auto script = program.file("completion.zsh");
    harpkeep::tests::write_bytes(script, program.done("completion zsh").text);
    // compadd and _files belong to zsh's completion system, which runs only at a terminal.
    return lines_of(
        run_shell("zsh -f -c " +
                  quoted("compdef() { :; }; compadd() { shift; print -l -- \"$@\"; }; _files() { print "
                         "files; }; " +
                         with_program(program) + "source " + quoted(script) + "; words=(harpkeep" + list +
                         "); CURRENT=" + std::to_string(words.size() + 1) + "; _harpkeep"))
            .text);
}

/// Every command below and with this one, as its help names them: "string on".
void collect(const Program& program, const std::string& path, std::set<std::string>& commands,
             std::set<std::string>& options)
{
    const auto help = program.done(path + " --help").text;
    std::istringstream stream{help};
    bool in_commands = false;
    for (std::string line; std::getline(stream, line);) {
        if (line.starts_with("Subcommands:"))
            in_commands = true;
        else if (!line.starts_with(" "))
            in_commands = false;
        if (!line.starts_with("  ") || line.starts_with("   ")) continue;
        std::string word = line.substr(2, line.find(' ', 2) - 2);
        if (in_commands) {
            const std::string below = path.empty() ? word : path + " " + word;
            commands.insert(below);
            collect(program, below, commands, options);
        } else if (word.starts_with("--") || word.starts_with("-h,--")) {
            options.insert(path + " " + word.substr(word.find("--")));
        }
    }
}

} // namespace

TEST_CASE("completion: bash offers commands, options, their values, harps and files", "[cli]")
{
    const Program program;
    program.done("harp add Heron");
    program.done("harp add 'Night Heron'");
    CHECK(offered_by_bash(program, {"str"}) == std::set<std::string>{"string"});
    CHECK(offered_by_bash(program, {"string", "o"}) == std::set<std::string>{"off", "on"});
    CHECK(offered_by_bash(program, {"string", "off", "3A", "--reason", ""}) ==
          std::set<std::string>{"broke", "schedule", "tone", "false", "set", "unknown"});
    CHECK(offered_by_bash(program, {"string", "on", "3A", "--mat"}) == std::set<std::string>{"--material"});
    CHECK(offered_by_bash(program, {"harp", "show", ""}) == std::set<std::string>{"Heron", "Night\\ Heron"});
    CHECK(offered_by_bash(program, {"visit", "list", "--harp", "N"}) ==
          std::set<std::string>{"Night\\ Heron"});
    CHECK(offered_by_bash(program, {"--ledger", program.file("compl")}) ==
          std::set<std::string>{program.file("completion.bash")});
}

TEST_CASE("completion: zsh offers the same", "[cli]")
{
    if (run_shell("zsh --version").code != 0) {
        WARN("left out: zsh is not installed");
        return;
    }
    const Program program;
    program.done("harp add Heron");
    program.done("harp add 'Night Heron'");
    CHECK(offered_by_zsh(program, {"string", ""}).contains("off"));
    CHECK(offered_by_zsh(program, {""}).contains("string"));
    CHECK(offered_by_zsh(program, {"string", "off", "3A", "--reason", ""}) ==
          std::set<std::string>{"broke", "schedule", "tone", "false", "set", "unknown"});
    CHECK(offered_by_zsh(program, {"string", "on", "3A", "--"}).contains("--material"));
    CHECK(offered_by_zsh(program, {"harp", "show", ""}) == std::set<std::string>{"Heron", "Night Heron"});
    CHECK(offered_by_zsh(program, {"ledger", "restore", ""}) == std::set<std::string>{"files"});
}

TEST_CASE("completion and manual: know every command and every option that the help knows", "[cli]")
{
    const Program program;
    std::set<std::string> commands, options;
    collect(program, "", commands, options);
    CHECK(commands.size() > 60);
    CHECK(commands.contains("string off"));
    CHECK(options.contains("string off --reason"));
    const auto manual = run_shell(std::string{HARPKEEP_PROGRAM} +
                                  " manual | groff -man -Tascii -P-cbou -rLL=500n 2>/dev/null")
                            .text;
    const auto bash = program.done("completion bash").text;
    const auto zsh = program.done("completion zsh").text;
    for (const auto& command : commands) {
        CAPTURE(command);
        CHECK(manual.find("harpkeep " + command) != std::string::npos);
        CHECK(bash.find("\"" + command + "\")") != std::string::npos);
        CHECK(zsh.find("\"" + command + "\")") != std::string::npos);
    }
    for (const auto& option : options) {
        CAPTURE(option);
        const auto name = option.substr(option.rfind("--"));
        CHECK(manual.find(name) != std::string::npos);
        CHECK(bash.find(name) != std::string::npos);
        CHECK(zsh.find(name) != std::string::npos);
    }
}

TEST_CASE("completion and manual: the shells and the formatter find nothing wrong with them", "[cli]")
{
    const Program program;
    harpkeep::tests::write_bytes(program.file("b"), program.done("completion bash").text);
    CHECK(run_shell("bash -n " + quoted(program.file("b"))).text.empty());
    harpkeep::tests::write_bytes(program.file("z"), program.done("completion zsh").text);
    if (run_shell("zsh --version").code == 0)
        CHECK(run_shell("zsh -n " + quoted(program.file("z"))).text.empty());
    harpkeep::tests::write_bytes(program.file("m"), program.done("manual").text);
    CHECK(run_shell("groff -man -ww -Tutf8 -z " + quoted(program.file("m"))).text.empty());
}
