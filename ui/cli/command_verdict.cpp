// SPDX-License-Identifier: MIT
#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <cmath>

namespace harpkeep::cli {

namespace {

struct VerdictWords {
    ReasonWords reason;
    int regulation_months = 24; ///< as `harpkeep due` has it
};

Result<void> verdict(const Common& common, const VerdictWords& words)
{
    const auto asked = ask_with_check(common, words.reason);
    if (!asked) return failure(asked.error());
    const auto& layout = asked->knowledge.harp.details.layout;
    const auto evidence = ui::harp_evidence(asked->knowledge, asked->day);
    constexpr double days_in_month = 365.2425 / 12.0;
    const int usual_days = static_cast<int>(std::lround(words.regulation_months * days_in_month));
    const auto judged = judge_harp(evidence, {.usual_days_between_visits = usual_days});
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
        if (words.reason.all || step.conformity != Conformity::within || step.watch)
            print_line(step_sentence(step, layout.kind));
    for (const auto& one : again) print_line(pluck_again_sentence(one));
    print_line(interval_remark);
    print_line(tolerance_sentence(asked->knowledge.tolerances));
    print_line(whole_step_sentence(asked->knowledge.tolerances));
    return {};
}

} // namespace

void add_command_verdict(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<VerdictWords>(app, common, work, "verdict",
                                             "whether to call the technician, and why", verdict);
    add_reason_options(*verb.app, verb.words->reason);
    verb.app
        ->add_option("--regulation-months", verb.words->regulation_months,
                     "months between regulations: 12 is usual for professionals, 24 for others")
        ->check(CLI::Range(1, 1200))
        ->capture_default_str();
}

} // namespace harpkeep::cli
