// SPDX-License-Identifier: MIT
// How often planted faults are found and sound harps blamed: harpkeep's cause finding on synthetic harps.
// Run: build/tests/benchmarks/cause_benchmark [HARPS [BEGINNING-OF-A-NAME]]; prints one row for each kind of
// harp.
#include "reason/cause.hpp"
#include "tests/support/planted_harp.hpp"
#include "tests/support/score_causes.hpp"

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <string_view>
#include <vector>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct Kind {
    const char* name;
    PlantingSettings settings;
};

PlantingSettings faulty()
{
    return {.fewest_pedals = 1, .most_pedals = 3, .slope_cents = 4.0, .fewest_strings = 2, .most_strings = 4};
}

std::vector<Kind> kinds()
{
    std::vector<Kind> all{{"sound", {}}, {"faulty", faulty()}};
    auto with = [&](const char* name, PlantingSettings settings, auto change) {
        change(settings);
        all.push_back({name, settings});
    };
    with("sound, positions scatter", {}, [](auto& s) { s.scatter_in_positions = true; });
    with("faulty, positions scatter", faulty(), [](auto& s) { s.scatter_in_positions = true; });
    with("sound, scatter 1.6", {}, [](auto& s) { s.scatter_cents = 1.6; });
    with("faulty, scatter 1.6", faulty(), [](auto& s) { s.scatter_cents = 1.6; });
    with("sound, heavy tails", {}, [](auto& s) { s.heavy_tails = true; });
    with("faulty, heavy tails", faulty(), [](auto& s) { s.heavy_tails = true; });
    with("sound, half of steps missing", {}, [](auto& s) { s.missing_share = 0.3; });
    with("faulty, half of steps missing", faulty(), [](auto& s) { s.missing_share = 0.3; });
    with("sound, 40 strings", {}, [](auto& s) { s.string_count = 40; });
    with("faulty, 40 strings", faulty(), [](auto& s) { s.string_count = 40; });
    return all;
}

double percent(int part, int whole)
{
    return whole > 0 ? 100.0 * part / whole : std::nan("");
}

void print_row(const char* name, const CauseScore& s, double milliseconds)
{
    fmt::print("{:30} {:8.2f} {:8.2f} {:8.2f} {:8.2f} {:8.2f} {:9d} {:9d} {:9d} {:8.2f} {:8.2f} {:8.2f}\n",
               name, percent(s.pedals_found, s.pedals), percent(s.strings_found, s.strings),
               percent(s.strings, s.strings_planted), percent(s.slopes_found, s.slopes),
               percent(s.harps_with_false_alarm, s.harps), s.false_pedals, s.false_strings,
               s.false_along_neck, percent(s.intervals_covering, s.intervals),
               s.pedal_errors > 0 ? std::sqrt(s.squared_pedal_error / s.pedal_errors) : std::nan(""),
               milliseconds);
}

} // namespace

int main(int argc, char** argv)
{
    const int harps = argc > 1 ? std::atoi(argv[1]) : 1000;
    fmt::print(
        "{} harps of each kind\n{:30} {:>8} {:>8} {:>8} {:>8} {:>8} {:>9} {:>9} {:>9} {:>8} {:>8} {:>8}\n",
        harps, "", "pedals", "strings", "strings", "slopes", "harps", "false", "false", "false", "95 %",
        "pedal", "time");
    fmt::print("{:30} {:>8} {:>8} {:>8} {:>8} {:>8} {:>9} {:>9} {:>9} {:>8} {:>8} {:>8}\n", "kind", "found %",
               "found %", "visible", "found %", "false %", "pedals", "strings", "neck", "cover %", "rms c",
               "ms/harp");
    const std::string_view only = argc > 2 ? argv[2] : "";
    std::uint64_t seed = 1;
    for (const auto& kind : kinds()) {
        Dice dice(seed++); // each kind its own, whichever are asked for
        if (!std::string_view(kind.name).starts_with(only)) continue;
        CauseScore score;
        double seconds = 0.0;
        for (int i = 0; i < harps; ++i) {
            const auto harp = plant(kind.settings, dice);
            const auto start = std::chrono::steady_clock::now();
            const auto report = find_causes(harp.layout, harp.steps, harp.whole_steps);
            seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
            if (report) add_to_score(score, harp, *report);
        }
        print_row(kind.name, score, 1000.0 * seconds / harps);
        std::fflush(stdout);
    }
    return 0;
}
