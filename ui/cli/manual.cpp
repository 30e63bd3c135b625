// SPDX-License-Identifier: MIT
#include "ui/cli/command_tree.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

/// Text in which roff sees no commands of its own.
std::string roff(const std::string& text)
{
    std::string result;
    bool at_line_begin = true;
    for (const char character : text) {
        if (at_line_begin && (character == '.' || character == '\'')) result += "\\&";
        if (character == '\\')
            result += "\\e";
        else if (character == '-')
            result += "\\-";
        else
            result += character;
        at_line_begin = character == '\n';
    }
    return result;
}

std::string synopsis(const CommandNode& command)
{
    std::string text = fmt::format(".B harpkeep {}\n", roff(command.path));
    for (const OptionNode& option : command.options) {
        if (!option.is_positional) continue;
        text += option.is_required ? fmt::format(".I {}\n", roff(option.name))
                                   : fmt::format(".RI [ {} ]\n", roff(option.name));
    }
    return text + ".RI [ options ]\n";
}

std::string option_text(const OptionNode& option)
{
    std::string value;
    for (const std::string& word : option.values) value += (value.empty() ? "" : "|") + word;
    if (value.empty() && !option.is_flag && !option.is_positional) value = "VALUE";
    const std::string name = option.is_positional
                                 ? fmt::format(".I {}", roff(option.name))
                                 : fmt::format(".BI {} \" {}\"", roff(option.name), roff(value));
    const char* required = option.is_required ? " (required)" : "";
    return fmt::format(".TP\n{}\n{}{}\n", name, roff(option.description), required);
}

bool is_common(const OptionNode& option)
{
    return option.name == "--help" || option.name == "--ledger" || option.name == "--json";
}

std::string command_text(const CommandNode& command)
{
    if (!command.commands.empty()) {
        std::string text =
            fmt::format(".SS harpkeep {}\n{}\n", roff(command.path), roff(command.description));
        for (const CommandNode& below : command.commands) text += command_text(below);
        return text;
    }
    std::string text = fmt::format(".PP\n{}.br\n{}\n", synopsis(command), roff(command.description));
    for (const OptionNode& option : command.options)
        if (!is_common(option)) text += option_text(option);
    if (!command.footer.empty()) text += fmt::format(".PP\n{}\n", roff(command.footer));
    return text;
}

} // namespace

std::string manual_page(const CommandNode& root, const std::string& version)
{
    std::string text =
        fmt::format(".TH HARPKEEP 1 \"\" \"harpkeep {0}\" \"User commands\"\n.SH NAME\nharpkeep \\- {1}\n"
                    ".SH SYNOPSIS\n.B harpkeep\n.I command\n.RI [ options ]\n",
                    version, roff(root.description));
    text += ".SH DESCRIPTION\nEvery command takes these options:\n";
    for (const CommandNode& command : root.commands) {
        const CommandNode& leaf = command.commands.empty() ? command : command.commands.front();
        for (const OptionNode& option : leaf.options)
            if (is_common(option)) text += option_text(option);
        break;
    }
    text += ".PP\n.B harpkeep \\-\\-version\nprints the version.\n.PP\nDates are written as 2026\\-03\\-04, or only the month 2026\\-03 or the year 2026. Strings "
            "are named by "
            "harp octave and letter: 4C is middle C.\n";
    text += ".SH COMMANDS\n";
    for (const CommandNode& command : root.commands) text += command_text(command);
    text += fmt::format(".SH EXIT STATUS\n.nf\n{}\n.fi\n", roff(root.footer));
    text += ".SH FILES\n.TP\n.I $XDG_DATA_HOME/harpkeep/ledger.harpkeep\nthe ledger; ~/.local/share where "
            "XDG_DATA_HOME is not set\n";
    return text;
}

} // namespace harpkeep::cli
