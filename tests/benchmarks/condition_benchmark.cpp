// SPDX-License-Identifier: MIT
// How often ailments of single strings are found and named rightly, and how often sound harps are blamed.
// Run: build/tests/benchmarks/condition_benchmark [HARPS]; prints one row for each ailment.
#include "reason/string_condition.hpp"
#include "tests/support/sounded_harp.hpp"

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <functional>
#include <vector>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

/// An ailment that one string of each harp is given; nothing for a sound harp.
struct Ailment {
    const char* name;
    std::optional<ConditionKind> kind;
    std::function<void(Reading& reading, int turn)> give;
};

void shorten_ring(Reading& reading, double share)
{
    for (auto& partial : reading.pluck.partials) partial.decay_s *= share;
}

Ailment high_return(const char* name, double cents)
{
    return {name, ConditionKind::no_return, [cents](Reading& reading, int turn) {
                if (turn == 3) raise(reading, cents);
            }};
}

Ailment short_ring(const char* name, double share)
{
    return {name, ConditionKind::poor_ring, [share](Reading& reading, int) {
                if (reading.position == Position::sharp) shorten_ring(reading, share);
            }};
}

Ailment irregular(const char* name, double cents)
{
    return {name, ConditionKind::false_string, [cents](Reading& reading, int) {
                reading.pluck.partials[1].frequency_hz *= std::exp2(cents / 1200.0);
                reading.pluck.partials[3].frequency_hz *= std::exp2(-cents / 1200.0);
            }};
}

std::vector<Ailment> ailments()
{
    return {{"sound harp", std::nullopt, [](Reading&, int) {}},
            high_return("comes back 4 cents high", 4.0),
            high_return("comes back 6 cents high", 6.0),
            {"beats in every position", ConditionKind::false_string,
             [](Reading& reading, int) { reading.pluck.doubts = {Doubt::beating}; }},
            irregular("two partials off by 5 cents", 5.0),
            irregular("two partials off by 10 cents", 10.0),
            short_ring("rings half as long in sharp", 0.5),
            short_ring("rings a third as long in sharp", 1.0 / 3.0),
            {"rings half as long in all", std::nullopt,
             [](Reading& reading, int) { shorten_ring(reading, 0.5); }}};
}

double percent(int part, int whole)
{
    return 100.0 * part / whole;
}

} // namespace

int main(int argc, char** argv)
{
    const int harps = argc > 1 ? std::atoi(argv[1]) : 1000;
    fmt::print("{} harps of 47 strings for each row, each string flat, natural, sharp and flat again\n"
               "{:32} {:>8} {:>12} {:>14}\n",
               harps, "one string", "found %", "named else %", "harps falsely");
    std::uint64_t seed = 1;
    for (const auto& ailment : ailments()) {
        int found = 0, else_named = 0, false_alarms = 0;
        for (int i = 0; i < harps; ++i, ++seed) {
            Dice dice(seed);
            const StringPlace ill =
                make_layout({})
                    .value()
                    .strings[static_cast<std::size_t>(dice.whole(2, 37))]
                    .place; // octaves 2 to 6: strings of octave 0 and 1 may come back high
            const auto harp = sound_harp(seed, [&](Reading& reading, int turn) {
                if (reading.place == ill) ailment.give(reading, turn);
            });
            bool blamed = false;
            for (const auto& condition : find_string_conditions(harp.layout, harp.readings, {})) {
                const bool right = condition.place == ill && condition.kind == ailment.kind;
                found += right;
                else_named += !right && condition.place == ill;
                blamed = blamed || (!right && condition.place != ill);
            }
            false_alarms += blamed;
        }
        fmt::print("{:32} {:8.1f} {:12.1f} {:14.1f}\n", ailment.name,
                   ailment.kind ? percent(found, harps) : std::nan(""), percent(else_named, harps),
                   percent(false_alarms, harps));
    }
    return 0;
}
