// SPDX-License-Identifier: MIT
#include "ui/cli/command_tree.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/file_output.hpp"

#include <CLI/CLI.hpp>
#include <memory>

namespace harpkeep::cli {

void add_command_completion(CLI::App& app, Common&, Work& work)
{
    auto* const completion =
        app.add_subcommand("completion", "print a script that lets a shell complete commands");
    const auto shell = std::make_shared<std::string>();
    completion->add_option("SHELL", *shell, "bash or zsh")->required()->check(CLI::IsMember({"bash", "zsh"}));
    completion->footer(
        "For bash: harpkeep completion bash > ~/.local/share/bash-completion/completions/harpkeep\n"
        "For zsh: harpkeep completion zsh > _harpkeep, in a folder of $fpath");
    completion->callback([&app, &work, shell] {
        work = [&app, shell] {
            const CommandNode root = command_tree(app);
            return write_output("-", *shell == "bash" ? bash_completion(root) : zsh_completion(root));
        };
    });
}

void add_command_manual(CLI::App& app, Common&, Work& work)
{
    auto* const manual = app.add_subcommand("manual", "print the manual page, in roff");
    manual->footer("To read it: harpkeep manual | man -l -");
    manual->callback([&app, &work] {
        work = [&app] { return write_output("-", manual_page(command_tree(app), HARPKEEP_VERSION)); };
    });
}

} // namespace harpkeep::cli
