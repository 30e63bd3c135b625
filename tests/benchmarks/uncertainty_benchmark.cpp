// SPDX-License-Identifier: MIT
// Prints, by register and noise level, how far pitches and steps are off and how often their 95 % intervals
// hold the truth: one string of an invented harp, plucked alone in two positions. A string has too few steps
// to tell 92 % from 98 %: for that neighbouring strings are pooled.
#include "tests/benchmarks/register_pool.hpp"
#include "tests/support/step_battery.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

using namespace harpkeep::tests;

int main(int argc, char** argv)
{
    CLI::App app{"Errors and coverage by register and noise level"};
    int count = 50;
    std::vector<double> levels_db{40.0, 30.0, 20.0, 10.0};
    std::vector<double> strings_hz{33, 49, 65, 98, 131, 196, 262, 392, 523, 784, 1047, 1568, 2093, 3136};
    bool no_twin = false;
    double deviation_cents = 0.0, rings_s = 1.7;
    app.add_option("--count", count, "steps in each cell");
    app.add_option("--snr-db", levels_db);
    app.add_option("--strings-hz", strings_hz);
    app.add_flag("--one-polarisation", no_twin);
    app.add_option("--deviation-cents", deviation_cents,
                   "of each partial from the series, standard deviation");
    app.add_option("--rings-s", rings_s);
    CLI11_PARSE(app, argc, argv);

    std::string pooled;
    for (const double snr_db : levels_db) {
        fmt::print("{:.0f} dB      pitch: median |  95 % cover width     step: median |  95 % cover width  "
                   "lost  ms\n",
                   snr_db);
        harpkeep::benchmarks::RegisterPool pitches, steps;
        for (const double hz : strings_hz) {
            StepBatteryResult r;
            for (int i = 0; i < count; ++i)
                run_step_battery({.lower_hz = hz,
                                  .snr_db = snr_db,
                                  .twin = !no_twin,
                                  .partial_deviation_sd_cents = deviation_cents,
                                  .rings_s = rings_s,
                                  .seed = static_cast<std::uint64_t>(1000 * hz + i)},
                                 r);
            fmt::print("{:7.0f} Hz         {:.3f} | {:.3f}  {:.2f}  {:.2f}            {:.3f} | {:.3f}  "
                       "{:.2f}  {:.2f}  {:4}  {:.1f}\n",
                       hz, absolute_quantile(r.pitch_errors_cents, 0.5),
                       absolute_quantile(r.pitch_errors_cents, 0.95),
                       coverage_of(r.pitch_errors_cents, r.pitch_uncertainties_cents, r.pitch_freedoms),
                       interval_ratio(r.pitch_errors_cents, r.pitch_uncertainties_cents, r.pitch_freedoms),
                       absolute_quantile(r.step_errors_cents, 0.5),
                       absolute_quantile(r.step_errors_cents, 0.95),
                       coverage_of(r.step_errors_cents, r.step_uncertainties_cents, r.step_freedoms),
                       interval_ratio(r.step_errors_cents, r.step_uncertainties_cents, r.step_freedoms),
                       r.lost, 500.0 * r.work_s / count);
            std::fflush(stdout);
            pitches.add(hz, r.pitch_errors_cents, r.pitch_uncertainties_cents, r.pitch_freedoms);
            steps.add(hz, r.step_errors_cents, r.step_uncertainties_cents, r.step_freedoms);
        }
        pooled += pitches.table(fmt::format("pitch {:.0f} dB", snr_db));
        pooled += steps.table(fmt::format("step {:.0f} dB", snr_db));
    }
    fmt::print("\n{}", pooled);
}
