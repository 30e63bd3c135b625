// SPDX-License-Identifier: MIT
#include "ui/cli/command_tree.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <functional>

namespace harpkeep::cli {

namespace {

/// What follows an option that names something in the world rather than one of a few words.
enum class Follows { words, harp, file, folder };

Follows follows(const OptionNode& option)
{
    if (!option.values.empty()) return Follows::words;
    if (option.name == "--harp" || option.name == "HARP") return Follows::harp;
    for (const char* file :
         {"--ledger", "--file", "--photo", "--from", "--ics", "--out", "FILE", "OTHER", "BACKUP"})
        if (option.name == file) return Follows::file;
    return Follows::words;
}

std::string last_word(const std::string& path)
{
    return path.substr(path.rfind(' ') + 1);
}

std::vector<std::string> command_words(const CommandNode& node)
{
    std::vector<std::string> words;
    for (const CommandNode& command : node.commands) words.push_back(last_word(command.path));
    return words;
}

std::vector<std::string> option_words(const CommandNode& node)
{
    std::vector<std::string> words;
    for (const OptionNode& option : node.options)
        if (!option.is_positional) words.push_back(option.name);
    return words;
}

void for_each_command(const CommandNode& node, const std::function<void(const CommandNode&)>& visit)
{
    visit(node);
    for (const CommandNode& command : node.commands) for_each_command(command, visit);
}

/// `harp show NAME` and the like: a name there is a harp's, but for `harp add`, which makes a new one.
bool names_a_harp(const CommandNode& node, const OptionNode& option)
{
    return option.name == "HARP" ||
           (node.path.starts_with("harp ") && node.path != "harp add" && option.name == "NAME");
}

/// The lines of a case statement that tell what may follow an option of a command.
std::string value_cases(const CommandNode& root)
{
    std::string cases;
    for_each_command(root, [&](const CommandNode& node) {
        for (const OptionNode& option : node.options) {
            if (option.is_positional || option.is_flag) continue;
            const std::string key = fmt::format("        \"{} {}\")", node.path, option.name);
            if (!option.values.empty())
                cases +=
                    fmt::format("{} kind=words; candidates=\"{}\" ;;\n", key, fmt::join(option.values, " "));
            else if (follows(option) == Follows::harp)
                cases += key + " kind=harps ;;\n";
            else if (follows(option) == Follows::file)
                cases += key + " kind=files ;;\n";
            else
                cases += key + " kind=none ;;\n";
        }
    });
    return cases;
}

/// The lines of a case statement that tell what may stand in a command itself.
std::string command_cases(const CommandNode& root)
{
    std::string cases;
    for_each_command(root, [&](const CommandNode& node) {
        std::vector<std::string> words = command_words(node);
        std::string kind = "words";
        for (const OptionNode& option : node.options) {
            if (!option.is_positional) continue;
            words.insert(words.end(), option.values.begin(), option.values.end());
            if (names_a_harp(node, option)) kind = "harps";
            if (follows(option) == Follows::file) kind = "files";
        }
        cases += fmt::format("        \"{}\") kind={}; candidates=\"{}\"; options=\"{}\" ;;\n", node.path,
                             kind, fmt::join(words, " "), fmt::join(option_words(node), " "));
    });
    return cases;
}

/// Finding the command that is being written, which both shells do alike.
constexpr const char* find_path = R"sh(    local spot="" ledger="" word i
    for ((i = FIRST; i < CURRENT_INDEX; i++)); do
        word="${words_so_far[i]}"
        if [[ "$word" == --ledger ]]; then ledger="${words_so_far[i+1]}"; continue; fi
        [[ "$word" == -* ]] && continue
        case " COMMAND_PATHS " in
            *"|${spot:+$spot }$word|"*) spot="${spot:+$spot }$word" ;;
        esac
    done
)sh";

std::string path_finder(const CommandNode& root, const std::string& first, const std::string& current)
{
    std::string paths = "|";
    for_each_command(root, [&](const CommandNode& node) {
        if (!node.path.empty()) paths += node.path + "|";
    });
    std::string text = find_path;
    for (const auto& [mark, value] :
         {std::pair{std::string{"FIRST"}, first}, {"CURRENT_INDEX", current}, {"COMMAND_PATHS", paths}})
        text.replace(text.find(mark), mark.size(), value);
    return text;
}

constexpr const char* harp_names =
    R"sh(harpkeep harp list --json ${ledger:+--ledger="$ledger"} 2>/dev/null | sed -n 's/^    "name": "\(.*\)",$/\1/p')sh";

} // namespace

std::string bash_completion(const CommandNode& root)
{
    return "# bash completion for harpkeep; written by `harpkeep completion bash`\n"
           "_harpkeep() {\n"
           "    local current=\"${COMP_WORDS[COMP_CWORD]}\" previous=\"${COMP_WORDS[COMP_CWORD-1]}\"\n"
           "    local words_so_far=(\"${COMP_WORDS[@]}\") kind=\"\" candidates=\"\" options=\"\"\n" +
           path_finder(root, "1", "COMP_CWORD") + "    case \"$spot $previous\" in\n" + value_cases(root) +
           "    esac\n"
           "    if [[ -z \"$kind\" ]]; then\n"
           "        case \"$spot\" in\n" +
           command_cases(root) +
           "        esac\n"
           "    fi\n"
           "    COMPREPLY=()\n"
           "    if [[ \"$current\" == -* ]]; then kind=words; candidates=\"$options\"; fi\n"
           "    case \"$kind\" in\n"
           "        words) COMPREPLY=($(compgen -W \"$candidates\" -- \"$current\")) ;;\n"
           "        files) COMPREPLY=($(compgen -f -- \"$current\")) ;;\n"
           "        harps) local IFS=$'\\n'; COMPREPLY=($(compgen -W \"$(" +
           std::string{harp_names} +
           ")\" -- \"$current\"))\n"
           "            for i in \"${!COMPREPLY[@]}\"; do COMPREPLY[i]=$(printf '%q' \"${COMPREPLY[i]}\"); "
           "done ;;\n"
           "    esac\n"
           "}\n"
           "complete -F _harpkeep harpkeep\n";
}

std::string zsh_completion(const CommandNode& root)
{
    return "#compdef harpkeep\n"
           "# zsh completion for harpkeep; written by `harpkeep completion zsh`\n"
           "_harpkeep() {\n"
           "    local current=\"${words[CURRENT]}\" previous=\"${words[CURRENT-1]}\"\n"
           "    local -a words_so_far=(\"${words[@]}\")\n"
           "    local kind=\"\" options=\"\" ledger=\"\" candidates=\"\"\n" +
           path_finder(root, "2", "CURRENT") + "    case \"$spot $previous\" in\n" + value_cases(root) +
           "    esac\n"
           "    if [[ -z \"$kind\" ]]; then\n"
           "        case \"$spot\" in\n" +
           command_cases(root) +
           "        esac\n"
           "    fi\n"
           "    if [[ \"$current\" == -* ]]; then kind=words; candidates=\"$options\"; fi\n"
           "    case \"$kind\" in\n"
           "        words) compadd -- ${=candidates} ;;\n"
           "        files) _files ;;\n"
           "        harps) compadd -- ${(f)\"$(" +
           std::string{harp_names} +
           ")\"} ;;\n"
           "    esac\n"
           "}\n"
           "compdef _harpkeep harpkeep\n";
}

} // namespace harpkeep::cli
