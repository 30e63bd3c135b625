// SPDX-License-Identifier: MIT
#include "reason/stringing_records.hpp"

#include "harp/expected_pitch.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

namespace {

std::string names_of(const std::vector<StringPlace>& places)
{
    std::vector<std::string> names;
    for (const auto place : places) names.push_back(harp_name(place));
    return fmt::format("{}", fmt::join(names, " "));
}

/// A wound string without what is over its wrap, not weighed either, would be taken for its bare core.
bool wrap_unknown(const StringMake& make)
{
    return !make.wrap_material.empty() && !make.wrap_outer_diameter && !make.linear_density;
}

} // namespace

std::string material_key(const std::string& written)
{
    std::string key = written;
    std::transform(key.begin(), key.end(), key.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    // other names for the same stuff (common practice)
    if (key == "pvdf" || key == "carbon" || key == "fluoro") return "fluorocarbon";
    if (key == "bronze") return "phosphor bronze";
    return key;
}

std::optional<StringSpec> spec_of(const StringMake& make)
{
    if ((!make.diameter && !make.linear_density) || wrap_unknown(make)) return std::nullopt;
    StringSpec spec{.material = material_key(make.material), .diameter = make.diameter};
    if (!make.wrap_material.empty() && make.wrap_outer_diameter)
        spec.wrap =
            Wrap{.material = material_key(make.wrap_material), .outer_diameter = *make.wrap_outer_diameter};
    if (make.linear_density)
        spec.weighed =
            WeighedMass{*make.linear_density, make.linear_density_uncertainty.value_or(KilogramsPerMetre{})};
    return spec;
}

RecordedStringing recorded_stringing(const HarpDetails& harp, std::span<const PlannedString> planned,
                                     Hertz a4)
{
    RecordedStringing recorded;
    recorded.plan.origin = "as noted in the ledger's stringing plan";
    for (const auto& string : harp.layout.strings) {
        const auto found = std::find_if(planned.begin(), planned.end(), [&string](const PlannedString& one) {
            return one.place == string.place;
        });
        if (found == planned.end()) {
            recorded.not_planned.push_back(string.place);
            continue;
        }
        const auto spec = spec_of(found->make);
        if (!spec) recorded.no_gauge.push_back(string.place);
        if (!found->length) recorded.no_length.push_back(string.place);
        if (!spec || !found->length) continue;
        recorded.plan.strings.push_back(
            {.place = string.place,
             .length = *found->length,
             .spec = *spec,
             .open_pitch = equal_temperament(key_number(string.place, string.open_alteration), a4)});
    }
    return recorded;
}

std::vector<PlannedString> as_records(const StringingPlan& plan, const Uuid& harp_id)
{
    std::vector<PlannedString> records;
    for (const auto& string : plan.strings) {
        PlannedString record{.harp_id = harp_id, .place = string.place, .length = string.length};
        record.make.material = string.spec.material;
        record.make.diameter = string.spec.diameter;
        if (string.spec.wrap) {
            record.make.wrap_material = string.spec.wrap->material;
            record.make.wrap_outer_diameter = string.spec.wrap->outer_diameter;
        }
        if (string.spec.weighed) {
            record.make.linear_density = string.spec.weighed->value;
            record.make.linear_density_uncertainty = string.spec.weighed->standard_uncertainty;
        }
        records.push_back(std::move(record));
    }
    return records;
}

std::vector<std::string> gap_sentences(const RecordedStringing& stringing)
{
    std::vector<std::string> sentences;
    const auto say = [&sentences](const std::vector<StringPlace>& places, const char* what) {
        if (!places.empty()) sentences.push_back(fmt::format("{}: {}.", what, names_of(places)));
    };
    say(stringing.not_planned, "Not in the plan");
    say(stringing.no_length, "Sounding length missing");
    say(stringing.no_gauge, "Diameter (of a wound string also over its wrap) or weighed mass missing");
    return sentences;
}

} // namespace harpkeep
