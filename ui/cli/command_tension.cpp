// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "reason/measured_inharmonicity.hpp"
#include "reason/stringing_advice.hpp"
#include "strings/example_stringing.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/string_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/material_setting.hpp"
#include "ui/support/string_knowledge.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace harpkeep::cli {

namespace {

struct TensionWords {
    std::string harp;
    double a4_hz = 440.0;
    double pluck_fraction = 0.5;
    std::string materials_path;
    bool example = false;
    bool measured = false;
    std::string change;
    MakeWords make;
};

/// Those of the ledger, with the ones of the file put in their place.
Result<MaterialTable> materials_for(const db::Ledger& ledger, const TensionWords& words)
{
    const auto kept = ui::materials_of(ledger);
    if (!kept || words.materials_path.empty()) return kept;
    std::ifstream file{words.materials_path, std::ios::binary};
    const std::string json{std::istreambuf_iterator<char>{file}, {}};
    if (!file)
        return failure(ErrorCode::not_found,
                       fmt::format("cannot read the materials in {}", words.materials_path));
    const auto changes = materials_from_json(json);
    if (!changes) return failure(changes.error().within(words.materials_path));
    return merged(*kept, *changes);
}

Result<RecordedStringing> stringing_of(const LedgerAndHarp& opened, const TensionWords& words)
{
    const Hertz a4{words.a4_hz};
    if (words.example) return RecordedStringing{.plan = example_stringing(opened.harp.details.layout, a4)};
    auto recorded = ui::recorded_stringing(opened.ledger, opened.harp, a4);
    if (recorded && recorded->plan.strings.empty())
        return failure(
            ErrorCode::unusable_input,
            fmt::format("the plan of {} has no string with length and gauge yet: `harpkeep plan set` notes "
                        "them, --example shows an invented stringing",
                        opened.harp.details.name));
    return recorded;
}

/// The planned string with what was said of another one in its place.
Result<StringSpec> new_spec(const StringingPlan& plan, StringPlace place, const MakeWords& words)
{
    const auto found = std::find_if(plan.strings.begin(), plan.strings.end(),
                                    [place](const StrungPlace& string) { return string.place == place; });
    if (found == plan.strings.end())
        return failure(ErrorCode::not_found,
                       fmt::format("nothing to change: {} has no planned string", harp_name(place)));
    auto old = as_records({.strings = {*found}}, Uuid{}).front().make;
    old.linear_density.reset(); // that was the weight of the old string
    old.linear_density_uncertainty.reset();
    const auto spec = spec_of(make_from(words, old));
    if (!spec)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("{}: give the diameter (of a wound string also over its wrap) or a weighed mass",
                        harp_name(place)));
    return *spec;
}

Result<void> show_change(const Common& common, const RecordedStringing& recorded,
                         const MaterialTable& materials, const MeasuringSlack& slack,
                         const TensionWords& words)
{
    const auto place = place_argument(words.change);
    if (!place) return failure(place.error());
    const auto spec = new_spec(recorded.plan, *place, words.make);
    if (!spec) return failure(spec.error());
    const auto change = change_of(recorded.plan, *place, *spec, materials, slack);
    if (!change) return failure(change.error());
    const auto sentences = change_sentences(*change);
    if (common.json) {
        Json document = json_of(*change);
        document["text"] = sentences;
        print_json(document);
    } else {
        print_sentences(sentences);
    }
    return {};
}

/// Each planned string's stiffness against that of the youngest check.
Result<std::vector<std::string>> measured_sentences(const LedgerAndHarp& opened,
                                                    const RecordedStringing& recorded, const HarpPull& pull)
{
    const auto check = db::latest_check(opened.ledger, opened.harp.id);
    if (!check) return failure(check.error());
    if (!*check)
        return std::vector{
            fmt::format("{} has no check yet: no measured inharmonicity.", opened.harp.details.name)};
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < pull.strings.size(); ++i) {
        const auto& figures = pull.strings[i];
        const auto measured = measured_inharmonicity((*check)->result.readings, figures.place);
        if (!measured) continue;
        const auto comparison = compare_inharmonicity(recorded.plan.strings[i], figures, *measured);
        if (comparison) sentences.push_back(inharmonicity_sentence(figures, *comparison, *measured));
    }
    if (sentences.empty())
        sentences.emplace_back("The youngest check has no trusted reading of a planned string.");
    return sentences;
}

void print_table(const RecordedStringing& recorded, const HarpPull& pull)
{
    using enum Table::Align;
    Table table{{{"place"},
                 {"string"},
                 {"length", right},
                 {"tension", right},
                 {"of breaking", right},
                 {"at the finger", right},
                 {"B", right}}};
    for (std::size_t i = pull.strings.size(); i-- > 0;) { // treble first, as harpists count
        const auto& figures = pull.strings[i];
        const auto& string = recorded.plan.strings[i];
        const auto gauge =
            string.spec.diameter ? " " + millimetres_text(*string.spec.diameter) : std::string{};
        table.add_row(
            {harp_name(figures.place), string.spec.material + gauge + (string.spec.wrap ? " wound" : ""),
             millimetres_text(string.length), newtons_text(figures.tension.value),
             figures.share_of_breaking ? percent_text(figures.share_of_breaking->value) : "",
             stiffness_text(figures.stiffness.value),
             figures.inharmonicity ? fmt::format("{}{:.1e}", figures.inharmonicity_is_floor ? ">" : "",
                                                 figures.inharmonicity->value)
                                   : ""});
    }
    table.print();
}

Result<void> tension(const Common& common, const TensionWords& words)
{
    const auto opened = open_harp(common, db::Access::read, words.harp);
    if (!opened) return failure(opened.error());
    const auto materials = materials_for(opened->ledger, words);
    if (!materials) return failure(materials.error());
    const auto recorded = stringing_of(*opened, words);
    if (!recorded) return failure(recorded.error());
    const MeasuringSlack slack{.pluck_fraction = words.pluck_fraction};
    if (!words.change.empty()) return show_change(common, *recorded, *materials, slack, words);

    const auto pull = pull_of(recorded->plan, *materials, slack);
    if (!pull) return failure(pull.error());
    auto sentences = pull_sentences(*pull, recorded->plan.origin);
    for (auto& gap : gap_sentences(*recorded)) sentences.push_back(std::move(gap));
    if (words.measured) {
        auto measured = measured_sentences(*opened, *recorded, *pull);
        if (!measured) return failure(measured.error());
        std::move(measured->begin(), measured->end(), std::back_inserter(sentences));
    }
    if (common.json) {
        Json strings = Json::array();
        for (const auto& figures : pull->strings) strings.push_back(json_of(figures));
        print_json({{"harp", opened->harp.details.name},
                    {"a4_hz", words.a4_hz},
                    {"origin", recorded->plan.origin},
                    {"total_tension_n",
                     {{"value", pull->total.value.value()},
                      {"low", pull->total.low.value()},
                      {"high", pull->total.high.value()}}},
                    {"mass_g", pull->mass.value()},
                    {"strings", strings},
                    {"text", sentences}});
        return {};
    }
    print_table(*recorded, *pull);
    print_sentences(sentences);
    return {};
}

} // namespace

void add_command_tension(CLI::App& app, Common& common, Work& work)
{
    const auto [command, words] = add_verb<TensionWords>(
        app, common, work, "tension", "pull, stress, feel and inharmonicity of the planned strings", tension);
    add_harp_option(*command, words->harp);
    command->add_option("--a4", words->a4_hz, "reference pitch in Hz")
        ->check(CLI::Range(380.0, 500.0))
        ->capture_default_str();
    command->add_option("--pluck", words->pluck_fraction, "where the feel is judged, as a part of the length")
        ->check(CLI::Range(0.01, 0.99))
        ->capture_default_str();
    command->add_option("--materials", words->materials_path,
                        "JSON file with materials to try, this time only; `material import` keeps them");
    command->add_flag("--example", words->example, "an invented stringing instead of the harp's plan");
    command->add_flag("--measured", words->measured,
                      "compare with the inharmonicity that the youngest check found");
    command->add_option("--change", words->change,
                        "what another string at this place would do, as 4C; the options below say which");
    add_make_options(*command, words->make);
}

} // namespace harpkeep::cli
