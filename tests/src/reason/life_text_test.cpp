// SPDX-License-Identifier: MIT
#include "reason/life_text.hpp"

#include "synthetic_school.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

const synthetic::School& school()
{
    static const auto drawn = [] {
        std::mt19937_64 random{91};
        return synthetic::draw_school(
            random,
            {.harps = 3, .years = 5, .burr = synthetic::Burr{"Wren", *place_from_harp_name("3A"), 0.1}});
    }();
    return drawn;
}

const LifeModel& model()
{
    static const auto learnt = learn_lives(school().observed).value();
    return learnt;
}

std::string joined(const std::vector<std::string>& sentences)
{
    std::string text;
    for (const auto& sentence : sentences) text += sentence + "\n";
    return text;
}

bool says(const std::string& text, const std::string& part)
{
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("life text: a study names medians, limits and what they rest on", "[reason]")
{
    const auto text = joined(study_sentences(study_lives(school().observed), 5.0));
    CHECK(says(text, "octave 1, nylon: half break by"));
    CHECK(says(text, " string-years."));
    CHECK(says(text, "Strings wear: an old one is likelier to break than a new one"));
    CHECK(says(text, "live unequally long"));
    CHECK(says(text, "Estimates are statistics, not promises."));
}

TEST_CASE("life text: a group without breaks gets its bound", "[reason]")
{
    std::vector<ObservedString> strings{
        {.harp = "Wren", .place = {Letter::C, 1}, .material = "steel", .age_at_exit_days = 3652.5},
        {.harp = "Wren", .place = {Letter::C, 4}, .material = "gut", .age_at_exit_days = 400, .broke = true}};
    const auto text = joined(study_sentences(study_lives(strings), 10.0));
    CHECK(says(text, "octave 7, steel: none has broken, so hardly more than 30 in 100 string-years;"));
    CHECK(says(text, "1 break so far: about 8 are needed"));
    CHECK(says(text, "70.0 years at this pace"));
}

// Remission under 6-MP (Freireich et al., Blood 21, 699, 1963), its weeks taken as days: Kaplan-Meier median
// 23, Weibull shape 1.353734 and scale 33.7651, so half by 33.7651 * log(2)^(1 / 1.353734) = 25.8.
TEST_CASE("life text: a group alone by Kaplan-Meier and by its own Weibull", "[reason][reference]")
{
    std::vector<ObservedString> strings;
    for (const double days : {6.0, 6.0, 6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0})
        strings.push_back({.harp = "Wren", .material = "gut", .age_at_exit_days = days, .broke = true});
    for (const double days : {6.0, 9.0, 10.0, 11.0, 17.0, 19.0, 20.0, 25.0, 32.0, 32.0, 34.0, 35.0})
        strings.push_back({.harp = "Wren", .material = "gut", .age_at_exit_days = days});
    const auto study = study_lives(strings, {.grouping = LifeGrouping::school});
    REQUIRE(study.groups.size() == 1);
    const auto alone = group_alone_sentence(study.groups[0]);
    REQUIRE(alone);
    CAPTURE(*alone);
    CHECK(says(*alone, "as watched half broke by 23 days, 95 %: at least "));
    CHECK(says(*alone, "by itself its Weibull has shape 1.35 ("));
    CHECK(says(*alone, "and half break by 26 days ("));
    CHECK(says(joined(study_sentences(study, 1.0)), *alone));
    CHECK_FALSE(group_alone_sentence(GroupLife{.name = "octave 7, steel"}));
}

TEST_CASE("life text: nothing to learn from is said, and what would suffice", "[reason]")
{
    const std::vector<ObservedString> sound{{.harp = "Wren", .material = "gut", .age_at_exit_days = 730.5}};
    const auto text = joined(study_sentences(study_lives(sound), 2.0));
    CHECK(says(
        text,
        "Too little to reckon with: nothing has failed yet (0 breaks of 1 string over 2.0 string-years)"));
    CHECK(says(text, "more than 1.5 breaks for each string and year")); // 2.9957 / 2
    CHECK(says(text, "About 8 breaks"));
}

TEST_CASE("life text: a risk stands with age, limits and group", "[reason]")
{
    const StringInUse old{.harp = "Heron", .place = {Letter::C, 7}, .material = "nylon", .age_days = 430};
    StringInUse unknown = old;
    unknown.age_days.reset();
    unknown.watched_days = 90;
    unknown.material = "fluorocarbon";
    const auto report = break_risks(model(), std::vector{old, unknown}, 60);
    std::string text;
    for (const auto& risk : report.strings) text += risk_sentence(risk, 60) + "\n";
    CHECK(says(text, "Heron 1C: "));
    CHECK(says(text, " to break within 2 months; put on 14 months ago; octave 1, nylon: "));
    CHECK(says(text, "age unknown, watched for 3 months"));
    CHECK(says(text, "no string of octave 1, fluorocarbon was watched yet"));
    CHECK(says(joined(risk_summary_sentences(report)), "that at least one of 2 strings breaks"));
}

TEST_CASE("life text: replacements with settling time and care", "[reason]")
{
    const auto soon =
        joined(replacement_sentences(plan_replacements(model(), school().in_use, {.days_until = 5})));
    const auto later =
        joined(replacement_sentences(plan_replacements(model(), school().in_use, {.days_until = 90})));
    CHECK(says(later, "Replace "));
    CHECK(says(later, "put them on in time"));
    CHECK(says(later, "wear eye protection"));
    CHECK(says(later, "At least one string breaks by then: "));
    CHECK(says(soon, "No string is worth replacing")); // nothing is likely to break within five days
}

TEST_CASE("life text: a cluster is explained without telling anyone to file", "[reason]")
{
    const auto text = joined(cluster_sentences(find_break_clusters(model(), school().observed)));
    CHECK(says(text, "Wren 3A broke "));
    CHECK(says(text, "mostly at the disc"));
    CHECK(says(text, "Have a technician look for a sharp edge there."));
    std::mt19937_64 random{92};
    const auto sound = synthetic::draw_school(random, {.harps = 2, .years = 3});
    const auto learnt = learn_lives(sound.observed).value();
    CHECK(says(joined(cluster_sentences(find_break_clusters(learnt, sound.observed))),
               "as chance spreads them over 94 places"));
}

TEST_CASE("life text: spares in words", "[reason]")
{
    const auto plan = plan_spares(model(), school().in_use, {}, 120, {.scenarios = 50});
    const auto text = joined(spare_sentences(plan));
    CHECK(says(text, "Spares for 4 months, so that the chance of missing any string stays under 5.0 %."));
    CHECK(says(text, "Order "));
    CHECK(says(text, " in the order without a known price."));
    CHECK(says(text, "Missing any string in that time: "));
    const auto least =
        plan_spares(model(), school().in_use, {}, 120, {.rule = SpareRule::least_cost, .scenarios = 50});
    CHECK(says(joined(spare_sentences(least)), "47 kinds without a price"));
}
