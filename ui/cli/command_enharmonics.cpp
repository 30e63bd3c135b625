// SPDX-License-Identifier: MIT
#include "reason/tune_text.hpp"
#include "reason/words.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::cli {

namespace {

Result<void> enharmonics(const Common& common, const ReasonWords& words)
{
    const auto asked = ask_with_check(common, words);
    if (!asked) return failure(asked.error());
    auto pairs =
        compare_enharmonics(asked->knowledge.harp.details.layout, asked->knowledge.check->result.readings);
    if (common.json) {
        Json document = subject_json(*asked);
        document["pairs"] = Json::array();
        for (const auto& pair : pairs) document["pairs"].push_back(json_of(pair));
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    if (pairs.empty())
        print_line("No two neighbouring strings were measured on one key: sound C in sharp and D in flat, "
                   "and so on.");
    std::stable_sort(pairs.begin(), pairs.end(), [](const EnharmonicPair& a, const EnharmonicPair& b) {
        return std::abs(a.cents) > std::abs(b.cents);
    });
    constexpr std::size_t worst = 15; // what fits on a screen
    const auto count = words.all ? pairs.size() : std::min(worst, pairs.size());
    for (std::size_t i = 0; i < count; ++i) print_line(enharmonic_sentence(pairs[i]));
    if (count < pairs.size())
        print_line(counted(pairs.size() - count, "pair") + " more agree better; --all lists them.");
    if (!pairs.empty()) print_line(interval_remark);
    return {};
}

} // namespace

void add_command_enharmonics(CLI::App& app, Common& common, Work& work)
{
    const auto verb =
        add_verb<ReasonWords>(app, common, work, "enharmonics",
                              "C sharp against D flat and the like, in cents and beats", enharmonics);
    add_reason_options(*verb.app, *verb.words);
}

} // namespace harpkeep::cli
