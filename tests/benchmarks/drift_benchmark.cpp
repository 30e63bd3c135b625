// SPDX-License-Identifier: MIT
// How far drift intervals and forecasts hold what they promise, on synthetic histories.
// Run: build/tests/benchmarks/drift_benchmark [HARPS [BEGINNING-OF-A-NAME]]; prints coverage and reliability
// for each kind.
#include "reason/forecast.hpp"
#include "tests/support/score_forecasts.hpp"
#include "tests/support/synthetic_history.hpp"

#include <chrono>
#include <cstdlib>
#include <fmt/format.h>
#include <string_view>
#include <vector>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct Kind {
    const char* name;
    HistorySettings settings;
};

std::vector<Kind> kinds()
{
    std::vector<Kind> all{{"eight checks in three years", {}}};
    const auto with = [&](const char* name, auto change) {
        HistorySettings settings;
        change(settings);
        all.push_back({name, settings});
    };
    with("three checks in ten months", [](auto& s) { s.checks = 3; });
    with("twenty checks in five years", [](auto& s) {
        s.checks = 20;
        s.days_between_checks = 90;
    });
    with("eighty checks in twenty years", [](auto& s) {
        s.checks = 80;
        s.days_between_checks = 91;
    });
    with("a visit in the middle", [](auto& s) { s.visit_before_check = 5; });
    with("no humidity logged", [](auto& s) { s.log_humidity = false; });
    with("strong seasons", [](auto& s) { s.season_cents = 1.5; });
    with("restless steps", [](auto& s) {
        s.wander_cents = 1.5;
        s.trend_spread_cents = 0.3;
    });
    with("steady steps", [](auto& s) {
        s.wander_cents = 0.15;
        s.trend_spread_cents = 2.0;
    });
    return all;
}

double percent(double part, double whole)
{
    return whole > 0 ? 100.0 * part / whole : 0.0;
}

void print(const char* name, const ForecastScore& s, double seconds_per_harp)
{
    fmt::print(
        "{}\n  95 % intervals hold the truth: today {:.1f} %, after 3, 6, 12 months {:.1f} {:.1f} {:.1f} %\n",
        name, percent(s.now_covered, s.now_count), percent(s.later_covered[0], s.later_count[0]),
        percent(s.later_covered[1], s.later_count[1]), percent(s.later_covered[2], s.later_count[2]));
    for (std::size_t m = 0; m < s.months.size(); ++m) {
        fmt::print("  left by month {:2}: stated -> happened (steps)", s.months[m]);
        for (const auto& bin : s.by_month[m])
            if (bin.count > 0)
                fmt::print("  {:.0f} -> {:.0f} % ({})", percent(bin.predicted, bin.count),
                           percent(bin.happened, bin.count), bin.count);
        fmt::print("\n");
    }
    int steps = 0;
    for (const auto& bin : s.by_month[2]) steps += bin.count;
    const double share = steps > 0 ? static_cast<double>(s.left) / steps : 0.0;
    fmt::print("  Brier score at 12 months {:.3f} (overall share told to all: {:.3f}); month of leaving "
               "between the 10 % "
               "and 90 % month: {:.1f} %; {:.2f} s a harp\n",
               s.brier / steps, share * (1.0 - share), percent(s.months_within, s.months_forecast),
               seconds_per_harp);
    std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv)
{
    const int harps = argc > 1 ? std::atoi(argv[1]) : 25;
    fmt::print("{} harps of 80 steps of each kind, tolerance 5 cents either side\n", harps);
    const std::string_view only = argc > 2 ? argv[2] : "";
    std::uint64_t seed = 100;
    for (const auto& kind : kinds()) {
        Dice dice(seed++); // each kind its own, whichever are asked for
        if (!std::string_view(kind.name).starts_with(only)) continue;
        ForecastScore score;
        double seconds = 0.0;
        for (int i = 0; i < harps; ++i) {
            const auto history = make_history(kind.settings, dice);
            const auto start = std::chrono::steady_clock::now();
            const auto fit = fit_drift(history.histories, history.events);
            seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
            add_to_score(score, history, *fit, {-5.0, 5.0});
        }
        print(kind.name, score, seconds / harps);
    }
    return 0;
}
