// SPDX-License-Identifier: MIT
#include "reason/cause_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

namespace harpkeep::cli {

namespace {

Json faults_json(const std::vector<Fault>& faults, HarpKind kind, const OpenLengths& lengths)
{
    Json list = Json::array();
    for (const auto& fault : faults) list.push_back(json_of(fault, kind, lengths));
    return list;
}

Json cause_json(const std::optional<CauseReport>& report, HarpKind kind, const OpenLengths& lengths)
{
    if (!report) return {{"enough_data", false}, {"steps_wanted", least_steps_for_cause}};
    Json effects = Json::array();
    for (const auto& effect : report->effects) effects.push_back(json_of(effect));
    Json unclear = Json::array();
    for (const Letter letter : report->unclear_pedals) unclear.push_back(std::string(1, letter_name(letter)));
    return {{"enough_data", true},
            {"method", cause_method},
            {"scatter_cents", report->scatter_cents},
            {"degrees_of_freedom", report->degrees_of_freedom},
            {"steps_used", report->steps_used},
            {"faults", faults_json(report->faults, kind, lengths)},
            {"suspected", faults_json(report->suspected, kind, lengths)},
            {"effects", effects},
            {"unclear_pedals", unclear}};
}

Result<void> cause(const Common& common, const ReasonWords& words)
{
    const auto asked = ask_with_check(common, words);
    if (!asked) return failure(asked.error());
    const auto& knowledge = asked->knowledge;
    const auto& layout = knowledge.harp.details.layout;
    const auto& result = knowledge.check->result;
    const auto report = find_causes(layout, result.steps, result.whole_steps);
    const auto conditions = find_string_conditions(layout, result.readings,
                                                   ui::string_ages(knowledge, ui::day_of(*knowledge.check)));
    const auto lengths = ui::open_lengths(knowledge);
    const auto sentences =
        cause_sentences(report, conditions, static_cast<int>(result.steps.size()), layout.kind, lengths);
    if (common.json) {
        Json document = subject_json(*asked);
        document.update(cause_json(report, layout.kind, lengths));
        document["conditions"] = Json::array();
        for (const auto& condition : conditions)
            document["conditions"].push_back(json_of(condition, layout.kind));
        document["text"] = sentences;
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    print_sentences(sentences);
    return {};
}

} // namespace

void add_command_cause(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<ReasonWords>(app, common, work, "cause",
                                            "what is behind the errors: pedal, neck, disc or string", cause);
    add_reason_options(*verb.app, *verb.words);
}

} // namespace harpkeep::cli
