// SPDX-License-Identifier: MIT
#include "ui/cli/harp_output.hpp"

#include "db/ledger/things.hpp"
#include "harp/string_number.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::cli {

namespace {

std::string_view accidental_name(int alteration)
{
    if (alteration < 0) return "flat";
    return alteration == 0 ? "natural" : "sharp";
}

Json json_of_string(const HarpString& string, StringPlace top)
{
    const auto number = string_number(string.place, top);
    return {{"place", harp_name(string.place)},
            {"scientific", scientific_name(string.place)},
            {"number", number ? Json(*number) : Json(nullptr)},
            {"open", accidental_name(string.open_alteration)},
            {"natural_disc", string.has_natural_disc},
            {"sharp_disc", string.has_sharp_disc}};
}

std::string kind_words(HarpKind kind)
{
    return kind == HarpKind::single ? "single-action harp" : std::string{kind_name(kind)} + " harp";
}

/// Names of the places without a disc or lever, from the lowest up.
std::vector<std::string> places_without_discs(const HarpLayout& layout)
{
    std::vector<std::string> names;
    for (const HarpString& string : layout.strings)
        if (!string.has_natural_disc) names.push_back(harp_name(string.place));
    return names;
}

void print_if(std::string_view label, const std::string& value)
{
    if (!value.empty()) print_line(fmt::format("  {:<16}{}", label, value));
}

} // namespace

Json json_of(const HarpRecord& harp)
{
    const HarpDetails& details = harp.details;
    Json strings = Json::array();
    for (const HarpString& string : details.layout.strings)
        strings.push_back(json_of_string(string, details.layout.strings.back().place));
    Json value = nullptr;
    if (details.value)
        value = {{"minor_units", details.value->minor_units}, {"currency", details.value->currency}};
    return {{"id", to_string(harp.id)},
            {"handle", db::handle_of(harp.id)},
            {"name", details.name},
            {"kind", kind_name(details.layout.kind)},
            {"nickname", details.nickname},
            {"maker", details.maker},
            {"serial_number", details.serial_number},
            {"year_built", json_or_null(details.year_built)},
            {"value", value},
            {"photo_path", details.photo_path},
            {"remarks", details.remarks},
            {"left_on", details.left_on ? Json(iso_date(*details.left_on)) : Json(nullptr)},
            {"string_count", details.layout.strings.size()},
            {"strings", strings}};
}

std::string kind_and_compass(const HarpLayout& layout)
{
    return fmt::format("{}, {} {} to {}", kind_words(layout.kind), counted(layout.strings.size(), "string"),
                       harp_name(layout.strings.front().place), harp_name(layout.strings.back().place));
}

void print_harps(const std::vector<HarpRecord>& harps)
{
    if (harps.empty()) {
        print_line("No harps yet; `harpkeep harp add NAME` adds one.");
        return;
    }
    Table table{{{"Harp"}, {"Kind"}, {"Strings", Table::Align::right}, {"Compass"}, {"Built"}, {"Serial"}}};
    for (const HarpRecord& harp : harps) {
        const auto& layout = harp.details.layout;
        table.add_row({harp.details.name, std::string{kind_name(layout.kind)},
                       std::to_string(layout.strings.size()),
                       fmt::format("{} to {}", harp_name(layout.strings.front().place),
                                   harp_name(layout.strings.back().place)),
                       harp.details.year_built ? std::to_string(*harp.details.year_built) : "",
                       harp.details.serial_number});
    }
    table.print();
}

void print_harp(const HarpRecord& harp)
{
    const HarpDetails& details = harp.details;
    print_line(fmt::format("{}: {}", details.name, kind_and_compass(details.layout)));
    const auto bare = places_without_discs(details.layout);
    if (!bare.empty()) {
        const auto* const what = details.layout.kind == HarpKind::lever ? "Without levers" : "Without discs";
        print_if(what, fmt::format("{}", fmt::join(bare, ", ")));
    }
    print_if("Nickname", details.nickname);
    print_if("Maker", details.maker);
    print_if("Serial number", details.serial_number);
    print_if("Built", details.year_built ? std::to_string(*details.year_built) : "");
    print_if("Value", details.value ? money_text(*details.value) : "");
    print_if("Photo", details.photo_path);
    print_if("Remarks", details.remarks);
    print_if("Left", details.left_on ? iso_date(*details.left_on) : "");
}

} // namespace harpkeep::cli
