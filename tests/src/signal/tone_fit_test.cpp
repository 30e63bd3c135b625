// SPDX-License-Identifier: MIT
#include "signal/tone_equations.hpp"
#include "signal/tone_fit.hpp"
#include "tests/src/signal/synthetic_band.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double first_hz = 262.0, inharmonicity = 1e-4, alpha = 1.2;

struct TwoTonesCase {
    double split_cents = 0.7, share = 0.2, decay_ratio = 0.6, glide_cents = 1.0, noise_rms = 3e-4;
    std::uint64_t seed = 1;
};

double series_hz(int k)
{
    return k * first_hz * std::sqrt((1.0 + inharmonicity * k * k) / (1.0 + inharmonicity));
}

struct Bands {
    std::vector<Baseband> bands;
    std::vector<TonePartial> partials;
    ToneSearch search;
};

/// Twelve partials with a twin each, its phase drawn by lot; started 0.3 cent off.
Bands bands_of(const TwoTonesCase& settings)
{
    RandomSource random(settings.seed);
    const PitchGlide glide{
        .amount = settings.glide_cents / cents_per_neper, .time_s = 0.5 / alpha, .start_s = 0.0};
    Bands result;
    for (int k = 1; k <= 12; ++k) {
        const double decay = alpha * std::pow(k, 0.6), amplitude = 0.2 / k;
        const BandTone main{.frequency_hz = series_hz(k),
                            .amplitude = amplitude,
                            .decay_rate = decay,
                            .phase_rad = random.uniform(0.0, 6.28),
                            .glide = glide};
        const BandTone twin{.frequency_hz = main.frequency_hz * std::exp2(settings.split_cents / 1200.0),
                            .amplitude = amplitude * settings.share,
                            .decay_rate = decay * settings.decay_ratio,
                            .phase_rad = random.uniform(0.0, 6.28),
                            .glide = glide};
        const BandSettings of_band{.reference_hz = std::round(series_hz(k)),
                                   .noise_rms = settings.noise_rms,
                                   .rate_hz = 12000.0,
                                   .seed = settings.seed * 100 + static_cast<std::uint64_t>(k)};
        const std::vector<BandTone> both{main, twin};
        result.bands.push_back(synthetic_band(both, of_band));
        result.partials.push_back({.number = k,
                                   .frequency_hz = series_hz(k) * std::exp2(0.3 / 1200.0),
                                   .decay_rate = 0.9 * decay,
                                   .noise_level = noise_in_band(of_band)});
    }
    for (std::size_t i = 0; i < result.bands.size(); ++i) result.partials[i].band = &result.bands[i];
    result.search = {.glide = {.amount = 0.9 * glide.amount, .time_s = 0.5 / alpha, .start_s = 0.0},
                     .inharmonicity = 1.5 * inharmonicity};
    return result;
}

double error_cents(const ToneFit& fit, std::size_t i)
{
    return cents_per_neper * std::log(fit.partials[i].frequency_hz / series_hz(static_cast<int>(i) + 1));
}

} // namespace

TEST_CASE("fit_two_tones: the main tone is found beside a twin that no partial shows by itself", "[property]")
{
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const auto bands = bands_of({.seed = seed});
        const auto fit = fit_two_tones(bands.partials, bands.search);
        REQUIRE(fit);
        CHECK(fit->probability > 0.99);
        CHECK(std::abs(fit->twin.split * cents_per_neper - 0.7) <
              0.1);                                         // 3 times what noise leaves at these levels
        CHECK(std::abs(fit->twin.decay_ratio - 0.6) < 0.1); // the same
        CHECK(std::abs(fit->twin.share - 0.2) < 0.06);      // the same
        // One tone alone would be 0.1 to 0.3 cent off.
        CHECK(std::abs(error_cents(*fit, 0)) <
              4.0 * std::hypot(fit->shared_sd_cents, std::sqrt(fit->partials[0].variance_cents2)));
        CHECK(std::abs(error_cents(*fit, 0)) < 0.05);
    }
}

TEST_CASE("fit_two_tones: a twin below the main tone is found as well", "[property]")
{
    const auto bands = bands_of({.split_cents = -0.7});
    const auto fit = fit_two_tones(bands.partials, bands.search);
    REQUIRE(fit);
    CHECK(std::abs(fit->twin.split * cents_per_neper + 0.7) < 0.1); // as above
    CHECK(std::abs(error_cents(*fit, 0)) < 0.05);
}

TEST_CASE("fit_two_tones: one tone is not explained by two", "[property]")
{
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const auto bands = bands_of({.share = 0.0, .seed = seed});
        const auto fit = fit_two_tones(bands.partials, bands.search);
        CHECK((!fit || fit->probability < 0.05)); // 1 in 20
    }
}

TEST_CASE("fit_two_tones: gain and the bands' reference do not matter", "[property]")
{
    auto bands = bands_of({});
    const auto plain = fit_two_tones(bands.partials, bands.search);
    for (auto& band : bands.bands)
        for (auto& value : band.values) value *= std::polar(7.0, 2.0);
    for (auto& partial : bands.partials) partial.noise_level *= 7.0;
    const auto loud = fit_two_tones(bands.partials, bands.search);
    REQUIRE((plain && loud));
    for (std::size_t i = 0; i < plain->partials.size(); ++i)
        CHECK(std::abs(plain->partials[i].frequency_hz / loud->partials[i].frequency_hz - 1.0) <
              1e-9); // rounding
}

TEST_CASE("fit_two_tones: a tone cut short leaves the pitch no more open than glides are", "[property]")
{
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
        auto bands = bands_of({.noise_rms = 0.1, .seed = seed});
        for (auto& band : bands.bands) band.values.resize(std::min<std::size_t>(band.values.size(), 24));
        bands.partials.resize(2);
        bands.search.relaxation_s = 2.0;
        const auto fit = fit_two_tones(bands.partials, bands.search);
        REQUIRE(fit);
        INFO("seed " << seed << ": " << fit->shared_sd_cents);
        CHECK(fit->shared_sd_cents > 1.5);  // the curvature would have it at several cents
        CHECK(fit->shared_sd_cents <= 2.0); // promised: what is known of glides beforehand
    }
}

TEST_CASE("tone_equations: the derivatives are those of the model, by differences", "[twin]")
{
    const auto bands = bands_of({});
    const auto values = tone_values(bands.partials[2], 0.0);
    const SharedTone shared{
        .glide_amount = 6e-4, .log_glide_time = -0.9, .split = 4e-4, .log_decay_ratio = -0.5};
    const OwnTone own{.frequency_hz = series_hz(3), .decay_rate = 2.3, .twin = {0.1, -0.15}};
    const auto at = tone_equations(values, own, shared, true);
    const double unit = 1.0 / (values.noise_power * values.correlated);
    // Half the sum of squares falls with the pull at the best amplitude (the envelope theorem).
    const auto half_square = [&](const OwnTone& o, const SharedTone& s) {
        return unit * tone_equations(values, o, s, true).residual_energy;
    };
    const auto slope = [&](auto change) {
        OwnTone up = own, down = own;
        SharedTone s_up = shared, s_down = shared;
        change(up, s_up, 1.0), change(down, s_down, -1.0);
        return half_square(down, s_down) - half_square(up, s_up);
    };
    const auto check = [&](Eigen::Index index, double step, auto change) {
        const double expected = at.pull(index),
                     found = slope([&](auto&o, auto&s, double sign) { change(o, s, sign * step); }) /
                             (2.0 * step);
        INFO(index << ": " << expected << " against " << found);
        CHECK(std::abs(found - expected) <
              2e-3 * std::abs(expected) + 1e-3); // t for the glide's own time: 6e-4
    };
    check(unknown::decay, 1e-4, [](OwnTone& o, SharedTone&, double d) { o.decay_rate += d; });
    check(unknown::twin, 1e-5, [](OwnTone& o, SharedTone&, double d) { o.twin += d; });
    check(unknown::twin + 1, 1e-5, [](OwnTone& o, SharedTone&, double d) {
        o.twin += std::complex<double>{0.0, d};
    });
    check(unknown::frequency, 1e-5, [](OwnTone& o, SharedTone&, double d) { o.frequency_hz += d; });
    check(unknown::glide, 1e-7, [](OwnTone&, SharedTone& s, double d) { s.glide_amount += d; });
    check(unknown::glide_time, 1e-4, [](OwnTone&, SharedTone& s, double d) { s.log_glide_time += d; });
    check(unknown::split, 1e-7, [](OwnTone&, SharedTone& s, double d) { s.split += d; });
    check(unknown::decay_ratio, 1e-4, [](OwnTone&, SharedTone& s, double d) { s.log_decay_ratio += d; });
}
