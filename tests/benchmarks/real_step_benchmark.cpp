// SPDX-License-Identifier: MIT
// Prints, by register and noise level, how far steps of real plucks, resampled by known ratios, are off and
// how often their 95 % intervals hold the truth.
#include "stats/quantiles.hpp"
#include "tests/benchmarks/harpkeep_step.hpp"
#include "tests/benchmarks/register_pool.hpp"
#include "tests/support/step_battery.hpp"
#include "tests/support/step_triple.hpp"

#include <CLI/CLI.hpp>
#include <array>
#include <cmath>
#include <cstdio>
#include <fmt/format.h>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double lead_in_s = 0.5;
constexpr double clean_db = 200.0; // this level and above: without noise
constexpr std::array register_edges_hz{0.0, 65.0, 131.0, 262.0, 523.0, 1046.0, 2093.0, 1e5};

struct Options {
    std::vector<std::string> sets{"wav", "freepats", "fluid"};
    std::vector<double> snr_db{clean_db, 30.0, 20.0, 10.0};
    double hum_below_noise_db = 6.0;
    std::uint64_t seed = 1;
    int repeats = 1, noises = 1;
    std::size_t every = 1;
    double lowest_hz = 0.0, highest_hz = 1e5;
    bool whole_recording = false, each = false;
};

/// Steps of one register at one level of noise.
struct Register {
    std::vector<double> errors_cents, uncertainties_cents, freedoms;
    int lost = 0;

    void add(const Register& other)
    {
        const auto append = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
        append(errors_cents, other.errors_cents);
        append(uncertainties_cents, other.uncertainties_cents);
        append(freedoms, other.freedoms);
        lost += other.lost;
    }
};

std::string row(const Register& r)
{
    return fmt::format("{:4} steps  {:.3f} | {:.3f}  max {:.2f}  cover {:.2f}  width {:.2f}  lost {}",
                       r.errors_cents.size(), absolute_quantile(r.errors_cents, 0.5),
                       absolute_quantile(r.errors_cents, 0.95), absolute_quantile(r.errors_cents, 1.0),
                       coverage_of(r.errors_cents, r.uncertainties_cents, r.freedoms),
                       interval_ratio(r.errors_cents, r.uncertainties_cents, r.freedoms), r.lost);
}

class Battery {
  public:
    explicit Battery(const Options& options) : options_(options) {}

    void run(const std::vector<StepTriple>& triples, double snr_db, std::uint64_t seed)
    {
        for (std::size_t i = 0; i < triples.size(); i += options_.every) {
            const StepTriple& t = triples[i];
            if (t.natural_hz < options_.lowest_hz || t.natural_hz >= options_.highest_hz) continue;
            const auto flat = played(t, t.flat, snr_db, 3 * (seed + i)),
                       natural = played(t, t.natural, snr_db, 3 * (seed + i) + 1),
                       sharp = played(t, t.sharp, snr_db, 3 * (seed + i) + 2);
            const double semitone = std::exp2(1.0 / 12.0);
            note(t, "lower", 100.0 + t.lower_error_cents,
                 benchmarks::measure_step(flat, natural, t.sample_rate_hz, t.natural_hz / semitone));
            note(t, "upper", 100.0 + t.upper_error_cents,
                 benchmarks::measure_step(natural, sharp, t.sample_rate_hz, t.natural_hz));
        }
    }

    void print(double snr_db) const
    {
        fmt::print("{}\n", snr_db >= clean_db ? "clean" : fmt::format("{:.0f} dB", snr_db));
        Register all;
        for (std::size_t i = 0; i < registers_.size(); ++i) {
            all.add(registers_[i]);
            if (registers_[i].errors_cents.empty() && registers_[i].lost == 0) continue;
            fmt::print("{:6.0f} Hz on  {}\n", register_edges_hz[i], row(registers_[i]));
        }
        fmt::print("all           {}\n", row(all));
        fmt::print("{}\n", pool_.table("pooled"));
        std::fflush(stdout);
    }

  private:
    [[nodiscard]] std::vector<float> played(const StepTriple& triple, const std::vector<double>& pluck,
                                            double snr_db, std::uint64_t seed) const
    {
        std::optional<RoomNoise> noise;
        if (snr_db < clean_db)
            noise = RoomNoise{.snr_db = snr_db,
                              .reference = options_.whole_recording ? SnrReference::whole_recording
                                                                    : SnrReference::first_half_second,
                              .hum_below_noise_db = options_.hum_below_noise_db};
        const auto mix = in_a_room(pluck, triple.sample_rate_hz, noise, lead_in_s, seed);
        return {mix.begin(), mix.end()};
    }

    void note(const StepTriple& triple, const char* name, double true_cents,
              const tl::expected<StepSize, std::string>& size)
    {
        std::size_t at = 0;
        while (triple.natural_hz >= register_edges_hz[at + 1]) ++at;
        if (!size) {
            ++registers_[at].lost;
            if (options_.each) fmt::print("{} {} lost: {}\n", triple.name, name, size.error());
            return;
        }
        const double error = size->size_cents - true_cents;
        registers_[at].errors_cents.push_back(error);
        registers_[at].uncertainties_cents.push_back(size->uncertainty_cents);
        registers_[at].freedoms.push_back(size->degrees_of_freedom);
        pool_.add(triple.natural_hz, error, size->uncertainty_cents, size->degrees_of_freedom);
        if (options_.each)
            fmt::print("{} {} {:+.3f} U95 {:.3f} nu {:.0f} n {}\n", triple.name, name, error,
                       stats::coverage_factor(0.95, size->degrees_of_freedom) * size->uncertainty_cents,
                       size->degrees_of_freedom, size->shared_partials);
    }

    const Options& options_;
    std::array<Register, register_edges_hz.size() - 1> registers_;
    benchmarks::RegisterPool pool_;
};

} // namespace

int main(int count, char** arguments)
{
    Options options;
    CLI::App app{"Errors and coverage of steps of resampled real plucks"};
    app.add_option("--sets", options.sets, "sets of recordings")->delimiter(',');
    app.add_option("--snr-db", options.snr_db, "levels of noise; 200: none")->delimiter(',');
    app.add_option("--hum-below-noise-db", options.hum_below_noise_db, "level of the mains hum");
    app.add_option("--seed", options.seed, "of the step errors and the noise");
    app.add_option("--repeats", options.repeats, "each recording with so many step errors and noises");
    app.add_option("--noises", options.noises,
                   "each step error with so many noises: quicker, for resampling takes most of the time");
    app.add_option("--every", options.every, "only every so many-th recording")->check(CLI::PositiveNumber);
    app.add_option("--from-hz", options.lowest_hz);
    app.add_option("--to-hz", options.highest_hz);
    app.add_flag("--snr-over-whole-recording", options.whole_recording,
                 "count the signal's level over the whole note, not over its first half second");
    app.add_flag("--each", options.each, "print every step");
    CLI11_PARSE(app, count, arguments);
    try {
        std::vector<Battery> batteries(options.snr_db.size(), Battery(options));
        for (int repeat = 0; repeat < options.repeats; ++repeat) {
            const std::uint64_t seed = options.seed + 1000 * static_cast<std::uint64_t>(repeat);
            const auto triples = real_step_triples(options.sets, seed);
            for (std::size_t i = 0; i < batteries.size(); ++i)
                for (int noise = 0; noise < (options.snr_db[i] < clean_db ? options.noises : 1); ++noise)
                    batteries[i].run(triples, options.snr_db[i],
                                     seed + 1'000'000 * static_cast<std::uint64_t>(noise));
        }
        for (std::size_t i = 0; i < batteries.size(); ++i) batteries[i].print(options.snr_db[i]);
    } catch (const std::exception& error) {
        fmt::print(stderr, "real_step_benchmark: {}\n", error.what());
        return 1;
    }
    return 0;
}
