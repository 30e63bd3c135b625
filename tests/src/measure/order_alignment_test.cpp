// SPDX-License-Identifier: MIT
#include "measure/order_alignment.hpp"

#include "heard_list.hpp"
#include "tests/support/whole_harp.hpp"

#include <catch2/catch.hpp>

#include <numeric>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

HarpLayout octave()
{
    return make_layout({.lowest = place_from_harp_name("4C"), .highest = place_from_harp_name("3C")}).value();
}

HarpTuning in_tune(const HarpLayout& layout)
{
    return {0.0, std::vector<double>(layout.strings.size(), 0.0)};
}

/// An octave in three passes, with a list of turns left out.
HeardList without(const std::vector<std::size_t>& turns)
{
    HeardList list{.layout = octave()};
    const auto plan = plan_pass_by_pass(list.layout, Direction::low_to_high);
    for (std::size_t n = 0; n < plan.size(); ++n)
        if (std::find(turns.begin(), turns.end(), n) == turns.end()) list.pluck(plan[n]);
    return list;
}

OrderAligner aligner_of(const HeardList& list)
{
    return OrderAligner(playing_order(list.layout, PlayingWay::pass_by_pass, false), list.a4, list.plucks);
}

} // namespace

TEST_CASE("OrderAligner: what is played in order costs nothing and lies turn by turn", "[measure]")
{
    const auto list = without({});
    const auto aligner = aligner_of(list);
    const auto found = aligner.align(in_tune(list.layout));
    CHECK(found.cost == Approx(0.0).margin(1e-9)); // rounding
    REQUIRE(found.target.size() == 24);
    std::vector<std::optional<StringAt>> placed;
    for (std::size_t n = 0; n < found.target.size(); ++n) {
        CHECK(found.target[n] == n);
        CHECK(found.rival[n] == 0);
        placed.push_back(StringAt{aligner.targets()[n].string, aligner.targets()[n].position});
    }
    for (const double elsewhere : aligner.costs_elsewhere(in_tune(list.layout), placed))
        CHECK(elsewhere - found.cost > 2.6); // what is called ambiguous
}

TEST_CASE("OrderAligner: a skipped string costs a skip and moves no other", "[measure]")
{
    const auto list = without({3, 4, 15});
    const auto found = aligner_of(list).align(in_tune(list.layout));
    CHECK(found.cost > 0.0);
    const std::vector<std::size_t> left{0,  1,  2,  5,  6,  7,  8,  9,  10, 11, 12,
                                        13, 14, 16, 17, 18, 19, 20, 21, 22, 23};
    REQUIRE(found.target.size() == left.size());
    for (std::size_t n = 0; n < left.size(); ++n) CHECK(found.target[n] == left[n]);
}

// cost() runs from the first pluck to the last and keeps one row; align() runs back and keeps all.
TEST_CASE("OrderAligner: both ways through the plucks find the same cost", "[measure][twin]")
{
    const std::uint64_t seed = GENERATE(range(1u, 25u));
    RandomSource random(seed);
    HeardList list{.layout = octave()};
    list.off_cents = [&](std::size_t string) { return 7.0 * static_cast<double>(string % 3) - 5.0; };
    for (const auto& planned : plan_pass_by_pass(list.layout, Direction::low_to_high)) {
        if (random.uniform() < 0.1) continue;
        list.pluck(planned, 3.0 * random.normal());
        if (random.uniform() < 0.1) list.pluck(planned);
        if (random.uniform() < 0.1) list.sound(200.0 * std::exp2(2.0 * random.uniform()));
    }
    const auto aligner = aligner_of(list);
    const HarpTuning tuning{10.0 * random.normal(), std::vector<double>(list.layout.strings.size(), 0.0)};
    CHECK(aligner.cost(tuning) == Approx(aligner.align(tuning).cost).margin(1e-9)); // order of additions
}

// With every pluck placed nowhere in particular, what is left is the alignment itself.
TEST_CASE("OrderAligner: elsewhere costs no less than the best, and nothing less where that is taken away",
          "[measure][property]")
{
    const auto list = without({3, 9, 10});
    const auto aligner = aligner_of(list);
    const auto best = aligner.align(in_tune(list.layout));
    std::vector<std::optional<StringAt>> wrong, nowhere(list.plucks.size());
    for (const auto& target : best.target) {
        const auto& right = aligner.targets()[*target];
        wrong.push_back(StringAt{right.string + 100, right.position});
    }
    for (const double cost : aligner.costs_elsewhere(in_tune(list.layout), wrong))
        CHECK(cost == Approx(best.cost).margin(1e-9)); // order of additions
    for (const double cost : aligner.costs_elsewhere(in_tune(list.layout), nowhere)) CHECK(std::isinf(cost));
}

TEST_CASE("OrderAligner: a repeat goes to the same string, a wild sound nowhere", "[measure]")
{
    auto list = without({});
    const auto plan = plan_pass_by_pass(list.layout, Direction::low_to_high);
    list.pluck(plan.back());
    list.sound(6000.0);
    const auto found = aligner_of(list).align(in_tune(list.layout));
    CHECK(found.target[24] == 23u);
    CHECK_FALSE(found.target[25].has_value());
}

TEST_CASE("OrderAligner: a rival pitch is taken where it fits and the likeliest does not", "[measure]")
{
    auto list = without({});
    // Heard an octave up, the right pitch as the rival.
    auto& heard = list.plucks[10].measurement;
    PluckMeasurement right = heard;
    heard.frequency_hz *= 2.0;
    heard.rivals = {right};
    const auto found = aligner_of(list).align(in_tune(list.layout));
    CHECK(found.target[10] == 10u);
    CHECK(found.rival[10] == 1);
    CHECK(found.cost < 7.0); // less than putting it aside
}

TEST_CASE("OrderAligner: a file that holds one pass stays in it", "[measure]")
{
    HeardList list{.layout = octave()};
    list.pass = Position::natural;
    // E natural a semitone flat sounds like E flat; the file says natural.
    for (const auto& planned : plan_pass(list.layout, Position::natural, Direction::low_to_high))
        list.pluck(planned,
                   list.layout.strings[planned.string_index].place.letter == Letter::E ? -100.0 : 0.0);
    const auto aligner = aligner_of(list);
    const auto found = aligner.align(in_tune(list.layout));
    for (std::size_t n = 0; n < 8; ++n) {
        REQUIRE(found.target[n].has_value());
        CHECK(aligner.targets()[*found.target[n]].position == Position::natural);
        CHECK(aligner.targets()[*found.target[n]].string == n);
    }
}
