// SPDX-License-Identifier: MIT
#include "report/string_card.hpp"

#include "reason/spare_plan.hpp"
#include "reason/string_cautions.hpp"
#include "report/report_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

const StringLife* string_on(const StringCardInput& input, StringPlace place)
{
    const StringLife* on = nullptr;
    for (const StringLife& life : input.strings)
        if (life.string.place == place && !life.removal) on = &life;
    return on;
}

const StringMake* planned(const StringCardInput& input, StringPlace place)
{
    for (const PlannedStringRecord& record : input.plan)
        if (record.details.place == place) return &record.details.make;
    return nullptr;
}

int spares_for(const StringCardInput& input, StringPlace place)
{
    int count = 0;
    for (const SpareStock& stock : input.stock)
        if (stock.place == place && (!stock.harp_id || *stock.harp_id == input.harp.id)) count += stock.count;
    return count;
}

/// Colours of strings: C red, F black or blue, the rest undyed (common practice).
std::string_view colour_words(Letter letter)
{
    return letter == Letter::C ? "red" : letter == Letter::F ? "black or blue" : "";
}

/// What belongs there, and what is on when that is something else.
std::string make_cell(StringPlace place, const StringMake* plan, const StringLife* on)
{
    const std::string meant = plan ? make_words(place, *plan) : "";
    if (on == nullptr) return meant.empty() ? "not noted" : meant;
    const auto is = make_words(place, on->string.make);
    if (meant.empty()) return is + " (on now; no plan)";
    return is == meant ? meant : fmt::format("{} (on now: {})", meant, is);
}

std::string since_words(const StringLife* on)
{
    if (on == nullptr) return "none noted";
    if (on->string.put_on) return iso_date(*on->string.put_on);
    return "before " + iso_date(*on->string.watched_from);
}

Row card_row(const StringCardInput& input, StringPlace place, bool carry)
{
    const auto* const on = string_on(input, place);
    const auto* const plan = planned(input, place);
    const int spares = spares_for(input, place);
    const std::string spare_words = spares > 0 ? fmt::format("{}", spares) : carry ? "0, carry one" : "0";
    return {.cells = {harp_name(place), std::string{colour_words(place.letter)}, make_cell(place, plan, on),
                      since_words(on), spare_words, ""},
            .fields = {place_field(place),
                       {"scientific", scientific_name(place)},
                       {"planned", plan ? FieldValue{make_words(place, *plan)} : FieldValue{}},
                       {"on_now", on ? FieldValue{make_words(place, on->string.make)} : FieldValue{}},
                       {"put_on",
                        on && on->string.put_on ? FieldValue{iso_date(*on->string.put_on)} : FieldValue{}},
                       {"supplier", on ? FieldValue{on->string.make.supplier} : FieldValue{}},
                       {"spares", std::int64_t{spares}},
                       {"usually_carried", carry}},
            .strong = place.letter == Letter::C || place.letter == Letter::F};
}

} // namespace

Document string_card(const StringCardInput& input)
{
    const HarpDetails& harp = input.harp.details;
    Table table{.name = "strings",
                .columns = {{"String"},
                            {"Colour"},
                            {"Meant for it", Align::left, true},
                            {"On since"},
                            {"Spares"},
                            {"Changed on, by hand                "}},
                .text_pt = 7.4};
    const auto carried = skeleton_set();
    for (auto string = harp.layout.strings.rbegin(); string != harp.layout.strings.rend(); ++string)
        table.rows.push_back(card_row(
            input, string->place, std::find(carried.begin(), carried.end(), string->place) != carried.end()));
    Document document{.kind = "strings",
                      .title = "String card",
                      .subject = harp.name,
                      .subtitle = harp_subtitle(harp),
                      .day = input.today,
                      .main_table = "strings"};
    document.sections = {{"strings", "", {std::move(table)}},
                         {"cautions",
                          "",
                          {Caution{{std::string{cautions::gauge}, std::string{cautions::removal},
                                    std::string{cautions::many_strings}}}}}};
    return document;
}

} // namespace harpkeep::report
