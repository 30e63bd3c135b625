// SPDX-License-Identifier: MIT
#include "ui/cli/command_tree.hpp"

#include <CLI/CLI.hpp>

namespace harpkeep::cli {

namespace {

/// "TEXT:{broke,schedule}" names the words that are allowed.
std::vector<std::string> values_from(const std::string& type)
{
    std::vector<std::string> values;
    const auto open = type.find('{');
    const auto close = type.find('}', open);
    if (open == std::string::npos || close == std::string::npos) return values;
    std::string word;
    for (std::size_t i = open + 1; i <= close; ++i) {
        if (type[i] != ',' && i < close) {
            word += type[i];
            continue;
        }
        values.push_back(word);
        word.clear();
    }
    return values;
}

OptionNode option_node(const CLI::Option& option)
{
    OptionNode node;
    node.is_positional = option.get_positional();
    node.name = node.is_positional ? option.get_name(true) : "--" + option.get_lnames().front();
    node.description = option.get_description();
    node.values = values_from(option.get_type_name());
    node.is_flag = option.get_items_expected_max() == 0;
    node.is_required = option.get_required();
    return node;
}

CommandNode command_node(const CLI::App& app, const std::string& path)
{
    CommandNode node{path, app.get_description(), app.get_footer(), {}, {}};
    for (const CLI::Option* option : app.get_options())
        if (!option->get_lnames().empty() || option->get_positional())
            node.options.push_back(option_node(*option));
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        node.commands.push_back(
            command_node(*command, path.empty() ? command->get_name() : path + " " + command->get_name()));
    return node;
}

} // namespace

CommandNode command_tree(const CLI::App& app)
{
    return command_node(app, "");
}

} // namespace harpkeep::cli
