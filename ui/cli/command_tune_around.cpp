// SPDX-License-Identifier: MIT
#include "reason/tune_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/piece_words.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct TuneWords {
    ReasonWords reason;
    PieceWords piece;
};

Result<TuneAroundRequest> request_from(const TuneWords& words, double check_a4_hz)
{
    auto settings = settings_of(words.piece);
    if (!settings) return failure(settings.error());
    return TuneAroundRequest{.settings = std::move(*settings),
                             .goal = goal_of(words.piece),
                             .temperament = temperament_of(words.piece),
                             .a4_hz = words.piece.a4_hz.value_or(check_a4_hz)};
}

Json request_json(const TuneAroundRequest& request)
{
    Json settings = Json::array();
    for (const auto& used : request.settings)
        settings.push_back({{"diagram", pedal_diagram(used.setting)},
                            {"pedals", pedal_names(used.setting)},
                            {"weight", used.weight}});
    return {{"a4_hz", request.a4_hz},
            {"temperament", request.temperament.name},
            {"goal", request.goal == TuneGoal::least_greatest ? "greatest" : "mean-square"},
            {"settings", settings}};
}

Result<void> tune(const Common& common, const TuneWords& words)
{
    const auto asked = ask_with_check(common, words.reason);
    if (!asked) return failure(asked.error());
    const auto& check = asked->knowledge.check->result;
    const auto request = request_from(words, check.a4_hz);
    if (!request) return failure(request.error());
    const auto result =
        tune_around(asked->knowledge.harp.details.layout, check.steps, check.whole_steps, *request);
    if (common.json) {
        Json document = subject_json(*asked);
        document.update(request_json(*request));
        document.update(json_of(result));
        document["text"] = tune_around_sentences(result);
        print_json(document);
        return {};
    }
    print_line(subject_line(*asked));
    for (const auto& used : request->settings)
        print_line(fmt::format("{}  {}  x {:g}", pedal_diagram(used.setting), pedal_names(used.setting),
                               used.weight));
    print_sentences(tune_around_sentences(result));
    print_line("");
    for (const auto& string : result.strings) print_line(tuning_line(string));
    return {};
}

} // namespace

void add_command_tune_around(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<TuneWords>(app, common, work, "tune-around",
                                          "where to tune the open strings so that a piece errs least", tune);
    auto& words = *verb.words;
    add_reason_options(*verb.app, words.reason);
    add_piece_options(*verb.app, words.piece);
}

} // namespace harpkeep::cli
