// SPDX-License-Identifier: MIT
#include "tests/support/step_triple.hpp"

#include "harp/expected_pitch.hpp"
#include "synth/synthetic_noise.hpp"
#include "tests/support/real_samples.hpp"
#include "tests/support/resample_by_ratio.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep::tests {

namespace {

constexpr double largest_error_cents = 12.0;

double ratio_of(double cents)
{
    return std::exp2(cents / 1200.0);
}

double rms_of(const std::vector<double>& pluck, double sample_rate_hz, SnrReference reference)
{
    const auto half_second = static_cast<std::size_t>(0.5 * sample_rate_hz);
    const std::size_t length =
        reference == SnrReference::whole_recording ? pluck.size() : std::min(pluck.size(), half_second);
    double power = 0.0;
    for (std::size_t n = 0; n < length; ++n) power += pluck[n] * pluck[n];
    return std::sqrt(power / static_cast<double>(std::max<std::size_t>(1, length)));
}

} // namespace

std::vector<StepTriple> real_step_triples(const std::vector<std::string>& sets, std::uint64_t seed,
                                          double longest_s)
{
    RandomSource random(seed);
    std::vector<StepTriple> triples;
    for (const std::string& set : sets)
        for (const RealSample& sample : real_samples(set)) {
            MonoSound sound = load(sample.path);
            const auto longest = static_cast<std::size_t>(longest_s * sound.sample_rate_hz);
            if (sound.samples.size() > longest) sound.samples.resize(longest);
            StepTriple triple{.name = set + " " + sample.note,
                              .place = sample.place,
                              .sample_rate_hz = sound.sample_rate_hz,
                              .natural_hz =
                                  equal_temperament(key_number(sample.place, 0), Hertz{440.0}).value(),
                              .lower_error_cents = random.uniform(-largest_error_cents, largest_error_cents),
                              .upper_error_cents = random.uniform(-largest_error_cents, largest_error_cents)};
            // The natural is resampled too, by a few cents, so that all three went through the same filter.
            const double shift_cents = random.uniform(-5.0, 5.0) - (sample.sharp ? 100.0 : 0.0);
            triple.flat =
                resample_by_ratio(sound.samples, ratio_of(shift_cents - 100.0 - triple.lower_error_cents));
            triple.natural = resample_by_ratio(sound.samples, ratio_of(shift_cents));
            triple.sharp =
                resample_by_ratio(sound.samples, ratio_of(shift_cents + 100.0 + triple.upper_error_cents));
            triples.push_back(std::move(triple));
        }
    return triples;
}

TripleRecording sound_triples(const std::vector<StepTriple>& triples, bool pass_by_pass,
                              const RoomNoise& noise, std::uint64_t seed)
{
    constexpr double lead_in_s = 1.0, fade_s = 0.1, gap_s = 0.2, rms = 0.05;
    constexpr std::array positions{Position::flat, Position::natural, Position::sharp};
    TripleRecording recording{.sample_rate_hz = triples.front().sample_rate_hz};
    const double rate_hz = recording.sample_rate_hz;
    const auto count_of = [&](double seconds) { return static_cast<std::size_t>(seconds * rate_hz); };
    std::vector<double> mix(count_of(lead_in_s), 0.0);
    const auto sound = [&](const StepTriple& triple, Position position) {
        std::vector<double> pluck = position == Position::flat      ? triple.flat
                                    : position == Position::natural ? triple.natural
                                                                    : triple.sharp;
        const double gain = rms / rms_of(pluck, rate_hz, noise.reference);
        const std::size_t fade = std::min(count_of(fade_s), pluck.size());
        for (double& sample : pluck) sample *= gain;
        for (std::size_t n = 0; n < fade; ++n)
            pluck[pluck.size() - 1 - n] *= static_cast<double>(n) / static_cast<double>(fade);
        recording.truth.push_back({static_cast<double>(mix.size()) / rate_hz, triple.place, position});
        mix.insert(mix.end(), pluck.begin(), pluck.end());
        mix.resize(mix.size() + count_of(gap_s), 0.0);
    };
    if (pass_by_pass)
        for (const Position position : positions)
            for (const StepTriple& triple : triples) sound(triple, position);
    else
        for (const StepTriple& triple : triples)
            for (const Position position : positions) sound(triple, position);
    RandomSource random(seed);
    const double noise_rms = rms * std::pow(10.0, -noise.snr_db / 20.0);
    add_pink_noise(mix, rate_hz, noise_rms, random);
    add_hum(
        mix, rate_hz,
        {.frequency_hz = noise.hum_hz, .level_dbfs = 20.0 * std::log10(noise_rms) - noise.hum_below_noise_db},
        random);
    double peak = 1.0; // nothing is clipped
    for (const double sample : mix) peak = std::max(peak, std::abs(sample));
    for (const double sample : mix) recording.samples.push_back(static_cast<float>(sample / peak));
    return recording;
}

std::vector<double> in_a_room(const std::vector<double>& pluck, double sample_rate_hz,
                              const std::optional<RoomNoise>& noise, double lead_in_s, std::uint64_t seed)
{
    std::vector<double> mix(static_cast<std::size_t>(lead_in_s * sample_rate_hz), 0.0);
    mix.insert(mix.end(), pluck.begin(), pluck.end());
    if (!noise) return mix;
    RandomSource random(seed);
    const double rms =
        rms_of(pluck, sample_rate_hz, noise->reference) * std::pow(10.0, -noise->snr_db / 20.0);
    add_pink_noise(mix, sample_rate_hz, rms, random);
    add_hum(mix, sample_rate_hz,
            {.frequency_hz = noise->hum_hz, .level_dbfs = 20.0 * std::log10(rms) - noise->hum_below_noise_db},
            random);
    return mix;
}

} // namespace harpkeep::tests
