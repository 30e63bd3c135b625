// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/harp_output.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>

namespace harpkeep::cli {

namespace {

/// What `harp add` was told, as written.
struct HarpWords {
    std::string name;
    std::string kind = "pedal";
    std::optional<int> strings;
    std::string lowest;
    std::string highest;
    std::string tuning;
    std::vector<std::string> without_discs;
    std::string nickname;
    std::string maker;
    std::string serial_number;
    std::optional<int> year_built;
    std::string value;
    std::string photo_path;
    std::string remarks;
};

// Common practice, no source: a concert pedal harp, and usual smaller ones of the other kinds.
int usual_string_count(HarpKind kind)
{
    return kind == HarpKind::lever ? 34 : (kind == HarpKind::single ? 43 : 47);
}

Result<HarpLayout> layout_from(const HarpWords& words)
{
    LayoutRequest request;
    request.kind = kind_from_name(words.kind).value(); // CLI11 allows no other
    request.string_count = words.strings.value_or(usual_string_count(request.kind));
    if (!words.lowest.empty()) {
        const auto place = place_argument(words.lowest);
        if (!place) return failure(place.error());
        request.lowest = *place;
    }
    if (!words.highest.empty()) {
        const auto place = place_argument(words.highest);
        if (!place) return failure(place.error());
        request.highest = *place;
    }
    if (!words.tuning.empty()) request.tuning = open_tuning_from_name(words.tuning);
    if (!words.without_discs.empty()) {
        auto places = places_argument(words.without_discs);
        if (!places) return failure(places.error());
        request.without_discs = std::move(*places);
    }
    auto layout = make_layout(request);
    if (layout && words.strings && request.lowest && request.highest &&
        layout->strings.size() != static_cast<std::size_t>(*words.strings))
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("{} to {} are {} strings, not {}; leave --strings out or change the compass",
                        words.lowest, words.highest, layout->strings.size(), *words.strings));
    return layout;
}

Result<HarpDetails> details_from(const HarpWords& words)
{
    HarpDetails details;
    details.name = words.name;
    auto layout = layout_from(words);
    if (!layout) return failure(layout.error());
    details.layout = std::move(*layout);
    details.nickname = words.nickname;
    details.maker = words.maker;
    details.serial_number = words.serial_number;
    details.year_built = words.year_built;
    if (!words.value.empty()) {
        const auto value = money_argument(words.value);
        if (!value) return failure(value.error());
        details.value = *value;
    }
    details.photo_path = words.photo_path;
    details.remarks = words.remarks;
    return details;
}

Result<void> add(const Common& common, const HarpWords& words)
{
    const auto details = details_from(words);
    if (!details) return failure(details.error());
    auto ledger = open_ledger(common, db::Access::create);
    if (!ledger) return failure(ledger.error());
    const auto id = db::add_harp(*ledger, ui::author(), *details);
    if (!id) return failure(id.error());
    const HarpRecord harp{*id, *details};
    if (common.json)
        print_json(json_of(harp));
    else
        print_line(fmt::format("Added {}: {}.", details->name, kind_and_compass(details->layout)));
    return {};
}

Result<void> list(const Common& common)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto harps = db::harps(*ledger);
    if (!harps) return failure(harps.error());
    if (!common.json) {
        print_harps(*harps);
        return {};
    }
    Json all = Json::array();
    for (const HarpRecord& harp : *harps) all.push_back(json_of(harp));
    print_json(all);
    return {};
}

Result<void> show(const Common& common, const std::string& name)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto harp = db::harp_named(*ledger, name);
    if (!harp) return failure(harp.error());
    if (common.json)
        print_json(json_of(*harp));
    else
        print_harp(*harp);
    return {};
}

void add_detail_options(CLI::App& subcommand, HarpWords& words)
{
    subcommand.add_option("--kind", words.kind, "pedal (two discs), single (one disc) or lever")
        ->check(CLI::IsMember({"pedal", "single", "lever"}))
        ->capture_default_str();
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
    auto* const harp = app.add_subcommand("harp", "the harps of the ledger");
    harp->require_subcommand(1);

    auto* const adding = harp->add_subcommand("add", "put a harp into the ledger");
    const auto words = std::make_shared<HarpWords>();
    adding->add_option("NAME", words->name, "what the harp is called; unique in the ledger")->required();
    add_detail_options(*adding, *words);
    add_common_options(*adding, common);
    adding->callback([&common, &work, words] { work = [&common, words] { return add(common, *words); }; });

    auto* const listing = harp->add_subcommand("list", "all harps");
    add_common_options(*listing, common);
    listing->callback([&common, &work] { work = [&common] { return list(common); }; });

    auto* const showing = harp->add_subcommand("show", "one harp in full");
    const auto name = std::make_shared<std::string>();
    showing->add_option("NAME", *name, "the harp, whatever the case of its letters")->required();
    add_common_options(*showing, common);
    showing->callback([&common, &work, name] { work = [&common, name] { return show(common, *name); }; });
}

} // namespace harpkeep::cli
