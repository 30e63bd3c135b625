// SPDX-License-Identifier: MIT
#include "reason/verdict_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>

namespace harpkeep::cli {

namespace {

Result<void> verdict(const Common& common, const ReasonWords& words)
{
    const auto asked = ask_with_check(common, words);
    if (!asked) return failure(asked.error());
    const auto& layout = asked->knowledge.harp.details.layout;
    const auto evidence = ui::harp_evidence(asked->knowledge, asked->day);
    const auto judged = judge_harp(evidence);
    const auto again = pluck_again(layout, evidence.steps);
    if (common.json) {
        Json document = subject_json(*asked);
        document.update(json_of(judged, layout.kind));
        document["tolerance"] = json_of(asked->knowledge.tolerances);
        document["steps"] = Json::array();
        for (const auto& step : evidence.steps) document["steps"].push_back(json_of(step));
        document["pluck_again"] = Json::array();
        for (const auto& one : again) document["pluck_again"].push_back(json_of(one));
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    print_sentences(verdict_sentences(judged, layout.kind));
    print_line("");
    for (const auto& step : evidence.steps)
        if (words.all || step.conformity != Conformity::within || step.watch)
            print_line(step_sentence(step, layout.kind));
    for (const auto& one : again) print_line(pluck_again_sentence(one));
    print_line(tolerance_sentence(asked->knowledge.tolerances));
    return {};
}

} // namespace

void add_command_verdict(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<ReasonWords>(app, common, work, "verdict",
                                            "whether to call the technician, and why", verdict);
    add_reason_options(*verb.app, *verb.words);
}

} // namespace harpkeep::cli
