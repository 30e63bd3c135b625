// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

#include <CLI/CLI.hpp>
#include <memory>

namespace harpkeep::cli {

/// A subcommand and the words that its options fill.
template <class Words>
struct Verb {
    CLI::App* app;
    std::shared_ptr<Words> words;
};

/// Adds a subcommand with the common options; when it is chosen, `run` gets the words.
template <class Words>
Verb<Words> add_verb(CLI::App& parent, Common& common, Work& work, const char* name, const char* help,
                     Result<void> (*run)(const Common&, const Words&))
{
    Verb<Words> verb{parent.add_subcommand(name, help), std::make_shared<Words>()};
    add_common_options(*verb.app, common);
    verb.app->callback([&common, &work, words = verb.words, run] {
        work = [&common, words, run] { return run(common, *words); };
    });
    return verb;
}

/// A noun whose verbs are subcommands: "harp", "string".
inline CLI::App& add_noun(CLI::App& app, const char* name, const char* help)
{
    auto* const noun = app.add_subcommand(name, help);
    noun->require_subcommand(1);
    return *noun;
}

/// Words of a verb that takes none.
struct NoWords {};

inline void add_harp_option(CLI::App& app, std::string& harp)
{
    app.add_option("--harp", harp, "name of the harp (may be left out when the ledger has only one)");
}

inline void add_reason_option(CLI::App& app, std::string& reason)
{
    app.add_option("--why", reason, "why it is corrected, for the history");
}

} // namespace harpkeep::cli
