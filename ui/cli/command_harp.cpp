// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/harp_output.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

/// What was written about a harp.
struct HarpWords {
    std::string name;
    std::string new_name;
    std::string kind;
    std::optional<int> strings;
    std::string lowest;
    std::string highest;
    std::string tuning;
    std::vector<std::string> without_discs;
    std::optional<std::string> nickname;
    std::optional<std::string> maker;
    std::optional<std::string> serial_number;
    std::optional<int> year_built;
    std::string value;
    std::optional<std::string> photo_path;
    std::optional<std::string> remarks;
    std::string left_on;
    std::string why;
};

Result<std::optional<StringPlace>> optional_place(const std::string& text)
{
    if (text.empty()) return std::nullopt;
    const auto place = place_argument(text);
    if (!place) return failure(place.error());
    return std::optional{*place};
}

Result<HarpLayout> layout_from(const HarpWords& words)
{
    LayoutRequest request;
    if (!words.kind.empty()) request.kind = kind_from_name(words.kind).value(); // CLI11 allows no other
    request.string_count = words.strings.value_or(usual_string_count(request.kind));
    const auto lowest = optional_place(words.lowest);
    if (!lowest) return failure(lowest.error());
    const auto highest = optional_place(words.highest);
    if (!highest) return failure(highest.error());
    request.lowest = *lowest;
    request.highest = *highest;
    if (!words.tuning.empty()) request.tuning = open_tuning_from_name(words.tuning);
    if (!words.without_discs.empty()) {
        auto places = places_argument(words.without_discs);
        if (!places) return failure(places.error());
        request.without_discs = std::move(*places);
    }
    auto layout = make_layout(request);
    if (layout && words.strings && layout->strings.size() != static_cast<std::size_t>(*words.strings))
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("{} to {} are {} strings, not {}; leave --strings out or change the compass",
                        words.lowest, words.highest, layout->strings.size(), *words.strings));
    return layout;
}

bool speaks_of_layout(const HarpWords& words)
{
    return !words.kind.empty() || words.strings || !words.lowest.empty() || !words.highest.empty() ||
           !words.tuning.empty() || !words.without_discs.empty();
}

/// Puts what was written, but for name and layout, over what is known of a harp.
Result<void> fill(HarpDetails& details, const HarpWords& words)
{
    if (words.nickname) details.nickname = *words.nickname;
    if (words.maker) details.maker = *words.maker;
    if (words.serial_number) details.serial_number = *words.serial_number;
    if (words.year_built) details.year_built = *words.year_built;
    if (words.photo_path) details.photo_path = *words.photo_path;
    if (words.remarks) details.remarks = *words.remarks;
    if (!words.value.empty()) {
        const auto value = money_argument(words.value);
        if (!value) return failure(value.error());
        details.value = *value;
    }
    if (!words.left_on.empty()) {
        const auto date = date_argument(words.left_on);
        if (!date) return failure(date.error());
        details.left_on = *date;
    }
    return {};
}

Result<void> add(const Common& common, const HarpWords& words)
{
    HarpRecord harp;
    harp.details.name = words.name;
    auto layout = layout_from(words);
    if (!layout) return failure(layout.error());
    harp.details.layout = std::move(*layout);
    const auto filled = fill(harp.details, words);
    if (!filled) return failure(filled.error());
    auto ledger = open_ledger(common, db::Access::create);
    if (!ledger) return failure(ledger.error());
    const auto id = db::add_harp(*ledger, ui::author(), harp.details);
    if (!id) return failure(id.error());
    harp.id = *id;
    if (common.json)
        print_json(json_of(harp));
    else
        print_line(fmt::format("Added {}: {}.", harp.details.name, kind_and_compass(harp.details.layout)));
    return {};
}

Result<void> change(const Common& common, const HarpWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.name);
    if (!opened) return failure(opened.error());
    HarpRecord& harp = opened->harp;
    if (!words.new_name.empty()) harp.details.name = words.new_name;
    if (speaks_of_layout(words)) {
        HarpWords complete = words;
        if (complete.kind.empty()) complete.kind = kind_name(harp.details.layout.kind);
        auto layout = layout_from(complete);
        if (!layout) return failure(layout.error());
        harp.details.layout = std::move(*layout);
    }
    const auto filled = fill(harp.details, words);
    if (!filled) return failure(filled.error());
    const auto changed = db::change_harp(opened->ledger, ui::author(), harp.id, harp.details, words.why);
    if (!changed) return failure(changed.error());
    if (common.json)
        print_json(json_of(harp));
    else
        print_harp(harp);
    return {};
}

struct ListWords {
    bool all = false;
};

Result<void> list(const Common& common, const ListWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    auto harps = db::harps(*ledger);
    if (!harps) return failure(harps.error());
    if (!words.all)
        std::erase_if(*harps, [](const HarpRecord& harp) { return harp.details.left_on.has_value(); });
    if (!common.json) {
        print_harps(*harps);
        return {};
    }
    Json all = Json::array();
    for (const HarpRecord& harp : *harps) all.push_back(json_of(harp));
    print_json(all);
    return {};
}

struct ShowWords {
    std::string name;
};

Result<void> show(const Common& common, const ShowWords& words)
{
    const auto opened = open_harp(common, db::Access::read, words.name);
    if (!opened) return failure(opened.error());
    if (common.json)
        print_json(json_of(opened->harp));
    else
        print_harp(opened->harp);
    return {};
}

void add_detail_options(CLI::App& subcommand, HarpWords& words)
{
    subcommand.add_option("--kind", words.kind, "pedal (two discs; the default), single (one disc) or lever")
        ->check(CLI::IsMember({"pedal", "single", "lever"}));
    subcommand.add_option("--strings", words.strings,
                          "number of strings (default: 47 pedal, 43 single, 34 lever)");
    subcommand.add_option("--lowest", words.lowest, "lowest string, as in 7C");
    subcommand.add_option("--highest", words.highest, "highest string, as in 0G");
    subcommand.add_option("--tuning", words.tuning, "what the open strings of a lever harp are tuned in")
        ->check(CLI::IsMember({"e-flat", "c", "f", "c-flat"}));
    subcommand
        .add_option(
            "--without-discs", words.without_discs,
            "strings that have no disc or lever, as in 7C,7D, or none (default: 7C,7D on pedal harps)")
        ->delimiter(',');
    subcommand.add_option("--nickname", words.nickname, "another name for it");
    subcommand.add_option("--maker", words.maker, "who built it");
    subcommand.add_option("--serial", words.serial_number, "serial number");
    subcommand.add_option("--year", words.year_built, "year it was built")->check(CLI::Range(1000, 9999));
    subcommand.add_option("--value", words.value, "what it is insured for, as in \"21000.00 EUR\"");
    subcommand.add_option("--photo", words.photo_path, "path of a picture");
    subcommand.add_option("--remarks", words.remarks, "anything else");
}

} // namespace

void add_command_harp(CLI::App& app, Common& common, Work& work)
{
    auto& harp = add_noun(app, "harp", "the harps of the ledger");

    const auto adding = add_verb<HarpWords>(harp, common, work, "add", "put a harp into the ledger", add);
    adding.app->add_option("NAME", adding.words->name, "what the harp is called; unique in the ledger")
        ->required();
    add_detail_options(*adding.app, *adding.words);

    const auto listing = add_verb<ListWords>(harp, common, work, "list", "the harps", list);
    listing.app->add_flag("--all", listing.words->all, "those that left too");

    const auto showing = add_verb<ShowWords>(harp, common, work, "show", "one harp in full", show);
    showing.app->add_option("NAME", showing.words->name, "the harp, whatever the case of its letters")
        ->required();

    const auto changing =
        add_verb<HarpWords>(harp, common, work, "change", "correct what is noted of a harp", change);
    changing.app->add_option("NAME", changing.words->name, "the harp")->required();
    changing.app->add_option("--name", changing.words->new_name, "its new name");
    add_detail_options(*changing.app, *changing.words);
    changing.app->add_option("--left", changing.words->left_on, "the day it was sold or given away");
    add_reason_option(*changing.app, changing.words->why);
}

} // namespace harpkeep::cli
