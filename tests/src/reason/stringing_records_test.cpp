// SPDX-License-Identifier: MIT
#include "reason/stringing_records.hpp"

#include "strings/example_stringing.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

HarpDetails concert_harp()
{
    return {.name = "Heron", .layout = make_layout({}).value()};
}

} // namespace

TEST_CASE("recorded_stringing: a plan comes back as it was written", "[reason][property]")
{
    const auto harp = concert_harp();
    const auto plan = example_stringing(harp.layout, 440.0_Hz);
    const auto records = as_records(plan, Uuid{});
    CHECK(records.size() == 47);
    const auto recorded = recorded_stringing(harp, records, 440.0_Hz);
    CHECK(recorded.plan.strings == plan.strings);
    CHECK(gap_sentences(recorded).empty());
}

TEST_CASE("recorded_stringing: says what is missing where", "[reason]")
{
    const auto harp = concert_harp();
    auto records = as_records(example_stringing(harp.layout, 440.0_Hz), Uuid{});
    records[1].length.reset();                   // 7D
    records[2].make.wrap_outer_diameter.reset(); // 7E: wound, so its core alone must not be taken for it
    records.erase(records.begin());              // 7C
    const auto recorded = recorded_stringing(harp, records, 440.0_Hz);
    CHECK(recorded.plan.strings.size() == 44);
    const auto gaps = gap_sentences(recorded);
    REQUIRE(gaps.size() == 3);
    CHECK(gaps[0] == "Not in the plan: 7C.");
    CHECK(gaps[1] == "Sounding length missing: 7D.");
    CHECK(gaps[2].find("missing: 7E.") != std::string::npos);
}

TEST_CASE("spec_of: a weighed string is enough", "[reason]")
{
    const StringMake weighed{
        .material = "Steel", .wrap_material = "Bronze", .linear_density = KilogramsPerMetre{0.02}};
    const auto spec = spec_of(weighed);
    REQUIRE(spec);
    CHECK(spec->material == "steel");
    CHECK_FALSE(spec->diameter);
    CHECK_FALSE(spec->wrap);
    CHECK(spec->weighed->value.value() == 0.02);
    CHECK_FALSE(spec_of({.material = "gut"}));
    CHECK(material_key("PVDF") == "fluorocarbon");
    CHECK(material_key("Phosphor Bronze") == "phosphor bronze");
}
