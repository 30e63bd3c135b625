// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// An option or positional argument of a command.
struct OptionNode {
    std::string name; ///< "--harp", or "PLACE" of a positional argument
    std::string description;
    std::vector<std::string> values; ///< the words it can be, when these are few
    bool is_positional = false;
    bool is_flag = false; ///< takes no value
    bool is_required = false;
};

/// A command with all below it: the one source of the help, the completions and the manual.
struct CommandNode {
    std::string path; ///< "string on"; empty for harpkeep itself
    std::string description;
    std::string footer;
    std::vector<OptionNode> options;
    std::vector<CommandNode> commands;
};

[[nodiscard]] CommandNode command_tree(const CLI::App& app);

/// Script for a shell that completes commands, options, their values, harp names and files.
[[nodiscard]] std::string bash_completion(const CommandNode& root);
[[nodiscard]] std::string zsh_completion(const CommandNode& root);

/// The manual page, in roff with the man macros.
[[nodiscard]] std::string manual_page(const CommandNode& root, const std::string& version);

} // namespace harpkeep::cli
