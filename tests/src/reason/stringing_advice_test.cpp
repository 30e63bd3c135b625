// SPDX-License-Identifier: MIT
#include "reason/stringing_advice.hpp"

#include "strings/example_stringing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;

namespace {

StringingPlan concert_plan()
{
    return example_stringing(make_layout({.string_count = 47}).value(), 440.0_Hz);
}

std::string joined(const std::vector<std::string>& sentences)
{
    std::string text;
    for (const auto& sentence : sentences) text += sentence + "\n";
    return text;
}

bool has(const std::vector<StringingFinding>& findings, StringingRemark remark)
{
    return std::any_of(findings.begin(), findings.end(),
                       [remark](const auto& f) { return f.remark == remark; });
}

bool says(const std::string& text, const std::string& part)
{
    return text.find(part) != std::string::npos;
}

StringSpec gut(double diameter_mm)
{
    return {.material = "gut", .diameter = Millimetres{diameter_mm}};
}

} // namespace

TEST_CASE("stringing advice: a thicker string pulls more, and the caution stands beside it", "[reason]")
{
    const auto change = change_of(concert_plan(), {Letter::C, 4}, gut(1.60), remembered_materials()).value();
    const auto findings = findings_of(change);
    CHECK(has(findings, StringingRemark::pulls_more));
    CHECK(has(findings, StringingRemark::whole_pull_up));
    const auto text = joined(change_sentences(change));
    CHECK(says(text, "stiffer"));
    CHECK(says(text, "A wrong gauge can overload neck and soundboard"));
    CHECK(says(text, "wear eye protection"));
    CHECK(says(text, "from memory"));
}

TEST_CASE("stringing advice: a thinner string pulls less and feels softer", "[reason]")
{
    const auto change = change_of(concert_plan(), {Letter::C, 4}, gut(1.30), remembered_materials()).value();
    CHECK(has(findings_of(change), StringingRemark::pulls_less));
    CHECK_FALSE(has(findings_of(change), StringingRemark::whole_pull_up));
    CHECK(says(joined(change_sentences(change)), "softer"));
}

TEST_CASE("stringing advice: too long a string is called out", "[reason]")
{
    auto plan = concert_plan();
    auto& string = plan.strings[30];
    string.length = string.length * 1.15;
    const auto high = pull_of(plan, remembered_materials()).value();
    CHECK(has(findings_of(high), StringingRemark::near_breaking));
    string.length = string.length * 1.5;
    const auto broken = pull_of(plan, remembered_materials()).value();
    CHECK(has(findings_of(broken), StringingRemark::no_reserve));
    CHECK(says(joined(pull_sentences(broken, plan.origin)), "must be wrong"));
}

TEST_CASE("stringing advice: the whole harp comes with origin, bounds and caution", "[reason]")
{
    const auto plan = concert_plan();
    const auto text = joined(pull_sentences(pull_of(plan, remembered_materials()).value(), plan.origin));
    CHECK(says(text, "47 strings pull"));
    CHECK(says(text, " kN together ("));
    CHECK(says(text, "invented"));
    CHECK(says(text, "about 10 kN together"));
}

TEST_CASE("stringing advice: one string in words", "[reason]")
{
    const auto plan = concert_plan();
    const auto text = joined(string_sentences(pull_of(plan, remembered_materials()).value().strings.front()));
    CHECK(says(text, "7C pulls"));
    CHECK(says(text, "Inharmonicity B at least")); // wound
    const StrungPlace unknown{.place = {Letter::C, 4},
                              .length = 640.0_mm,
                              .spec = {.material = "copper", .diameter = 1.0_mm},
                              .open_pitch = 246.9_Hz};
    CHECK(says(joined(string_sentences(figures_of(unknown, remembered_materials()).value())),
               "no breaking stress is known"));
}

TEST_CASE("stringing advice: measured inharmonicity in words", "[reason]")
{
    const auto plan = concert_plan();
    const auto& string = plan.strings[24];
    const auto predicted = figures_of(string, remembered_materials()).value();
    const auto sentence = [&](double factor) {
        const MeasuredInharmonicity measured{factor * predicted.inharmonicity->value, 1e-7};
        return inharmonicity_sentence(predicted, *compare_inharmonicity(string, predicted, measured),
                                      measured);
    };
    CHECK(says(sentence(1.0), "as stiff as planned"));
    CHECK(says(sentence(2.0), "stiffer than planned, as if it were"));
    CHECK(says(sentence(0.5), "more supple"));
}
