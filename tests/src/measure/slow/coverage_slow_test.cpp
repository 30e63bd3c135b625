// SPDX-License-Identifier: MIT
#include "tests/support/step_battery.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep::tests;

namespace {

constexpr int steps = 20; // in each cell: coverage is known to 5 %

StepBatteryResult battery(double lower_hz, double snr_db)
{
    StepBatteryResult result;
    for (int i = 0; i < steps; ++i)
        run_step_battery({.lower_hz = lower_hz,
                          .snr_db = snr_db,
                          .seed = static_cast<std::uint64_t>(1000.0 * lower_hz + i)},
                         result);
    return result;
}

} // namespace

TEST_CASE("coverage: 95 % intervals of pitch and step hold the truth, and are no wider than needed",
          "[property]")
{
    // Two polarisations drawn anew for each pluck. The larger battery: uncertainty_benchmark (docs/methods).
    for (const double snr_db : {40.0, 30.0})
        for (const double lower_hz : {65.0, 262.0, 1047.0}) {
            const auto r = battery(lower_hz, snr_db);
            INFO(lower_hz << " Hz, " << snr_db << " dB");
            // 95 %, less 3 standard deviations of 40 pitches (3.4 %) and of 20 steps (4.9 %).
            CHECK(coverage_of(r.pitch_errors_cents, r.pitch_uncertainties_cents, r.pitch_freedoms) >= 0.84);
            CHECK(coverage_of(r.step_errors_cents, r.step_uncertainties_cents, r.step_freedoms) >= 0.80);
            CHECK(interval_ratio(r.pitch_errors_cents, r.pitch_uncertainties_cents, r.pitch_freedoms) < 3.0);
            CHECK(interval_ratio(r.step_errors_cents, r.step_uncertainties_cents, r.step_freedoms) < 3.0);
            CHECK(absolute_quantile(r.step_errors_cents, 0.5) < 0.15); // the goal at 30 dB
            CHECK(r.lost == 0);
        }
}
