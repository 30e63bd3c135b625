// SPDX-License-Identifier: MIT
#include "db/records/string_plans.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/string_output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct PlanWords {
    std::vector<std::string> places;
    std::string harp;
    MakeWords make;
    std::optional<double> length_mm;
};

/// The plan of a place as it is, or an empty one.
PlannedString planned_at(const std::vector<PlannedStringRecord>& plan, const Uuid& harp_id, StringPlace place)
{
    for (const PlannedStringRecord& record : plan)
        if (record.details.place == place) return record.details;
    return {.harp_id = harp_id, .place = place};
}

Result<void> set(const Common& common, const PlanWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    const auto places = places_argument(words.places);
    if (!places) return failure(places.error());
    const auto plan = db::string_plan(opened->ledger, opened->harp.id);
    if (!plan) return failure(plan.error());
    std::vector<PlannedString> strings;
    for (const StringPlace place : *places) {
        PlannedString string = planned_at(*plan, opened->harp.id, place);
        string.make = make_from(words.make, string.make);
        if (words.length_mm) string.length = Millimetres{*words.length_mm};
        strings.push_back(std::move(string));
    }
    const auto planned = db::plan_strings(opened->ledger, ui::author(), strings);
    if (!planned) return failure(planned.error());
    if (common.json) {
        Json all = Json::array();
        for (const PlannedString& string : strings) {
            Json one{{"harp", opened->harp.details.name}, {"place", harp_name(string.place)}};
            put_make(one, string.make);
            one["length_mm"] = string.length ? Json(string.length->value()) : Json(nullptr);
            all.push_back(one);
        }
        print_json(all);
    } else {
        print_line(
            fmt::format("Planned {} for {}.", counted(strings.size(), "string"), opened->harp.details.name));
    }
    return {};
}

struct ListWords {
    std::string harp;
};

Result<void> list(const Common& common, const ListWords& words)
{
    const auto opened = open_harp(common, db::Access::read, words.harp);
    if (!opened) return failure(opened.error());
    const auto plan = db::string_plan(opened->ledger, opened->harp.id);
    if (!plan) return failure(plan.error());
    if (common.json) {
        const auto names = Names::in(opened->ledger);
        if (!names) return failure(names.error());
        print_json(json_list(*plan, *names));
        return {};
    }
    if (plan->empty()) {
        print_line("No stringing plan yet; `harpkeep plan set PLACE --material ...` begins one.");
        return {};
    }
    Table table{{{"Place"},
                 {"Material"},
                 {"Diameter mm", Table::Align::right},
                 {"Over the wrap mm", Table::Align::right},
                 {"Length mm", Table::Align::right},
                 {"g/m", Table::Align::right},
                 {"Supplier"},
                 {"Handle"}}};
    for (const PlannedStringRecord& record : *plan) {
        const StringMake& make = record.details.make;
        table.add_row({harp_name(record.details.place), material_words(make), millimetres_text(make.diameter),
                       millimetres_text(make.wrap_outer_diameter), millimetres_text(record.details.length),
                       grams_per_metre_text(make.linear_density), make.supplier, db::handle_of(record.id)});
    }
    table.print();
    return {};
}

} // namespace

void add_command_plan(CLI::App& app, Common& common, Work& work)
{
    auto& plan = add_noun(app, "plan", "the stringing plan: which string is meant for which place");

    const auto setting =
        add_verb<PlanWords>(plan, common, work, "set", "say what string is meant for a place", set);
    setting.app->add_option("PLACE", setting.words->places, "one or more places, as in 3A")
        ->required()
        ->delimiter(',');
    add_harp_option(*setting.app, setting.words->harp);
    add_make_options(*setting.app, setting.words->make);
    setting.app->add_option("--length", setting.words->length_mm, "sounding length of the open string in mm")
        ->check(CLI::PositiveNumber);

    const auto listing = add_verb<ListWords>(plan, common, work, "list", "the plan of a harp", list);
    add_harp_option(*listing.app, listing.words->harp);
}

} // namespace harpkeep::cli
