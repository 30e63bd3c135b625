// SPDX-License-Identifier: MIT
#include "synth/synthetic_string.hpp"

#include "base/expects.hpp"
#include "synth/random_source.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double nepers_per_60_db = 6.907755278982137; // ln 1000
constexpr std::size_t block_length = 128;
constexpr std::size_t lanes = 4;

double from_db(double level_db)
{
    return std::pow(10.0, level_db / 20.0);
}

/// One node of the invented curves of generic_string().
struct CurveNode {
    double frequency_hz;
    double decay_t60_s;
    double inharmonicity;
};
constexpr std::array<CurveNode, 8> curve{{{30.0, 13.0, 1.6e-4},
                                          {65.0, 11.0, 8.0e-5},
                                          {131.0, 9.0, 4.0e-5},
                                          {262.0, 6.5, 9.0e-5},
                                          {523.0, 4.0, 2.8e-4},
                                          {1047.0, 1.8, 9.0e-4},
                                          {2093.0, 0.6, 2.2e-3},
                                          {3500.0, 0.25, 4.5e-3}}};

/// Warped time minus time, and its slope, for a glide of `strength` = g ln 2 / 1200 that fades as exp(-rate
/// t): tau(t) = integral of exp(strength exp(-rate t)) = t + sum_n strength^n (1 - exp(-n rate t)) / (n n!
/// rate).
class Glide {
  public:
    Glide(double cents, double first_decay_per_s)
        : strength_(cents * std::numbers::ln2 / 1200.0), rate_(2.0 * first_decay_per_s)
    {
        double term = 1.0;
        for (int n = 1; n <= 12; ++n) { // 100 cents: the 13th term is under 1e-26
            term *= strength_ / n;
            if (std::abs(term) < 1e-20) break;
            terms_.push_back(term / (n * rate_));
        }
    }
    [[nodiscard]] bool none() const { return strength_ == 0.0; }
    [[nodiscard]] double excess_s(double t) const
    {
        const double fade = std::exp(-rate_ * t);
        double sum = 0.0, fade_power = 1.0;
        for (const double term : terms_) {
            fade_power *= fade;
            sum += term * (1.0 - fade_power);
        }
        return sum;
    }
    [[nodiscard]] double slope(double t) const { return std::exp(strength_ * std::exp(-rate_ * t)); }

  private:
    double strength_;
    double rate_;
    std::vector<double> terms_; ///< strength^n / (n n! rate)
};

/// The times of one block: its middle, the warped time there, and how far the warped time of each sample
/// departs from its tangent in the middle, which is the same for all partials.
struct Block {
    double middle_s = 0.0;
    double warped_middle_s = 0.0;
    double slope = 1.0;
    std::array<double, block_length> departure_s{};
    double largest_departure_s = 0.0;
};

Block block_at(const Glide& glide, double first_s, double sample_rate_hz)
{
    Block block;
    block.middle_s = first_s + 0.5 * block_length / sample_rate_hz;
    block.warped_middle_s = block.middle_s;
    if (glide.none()) return block;
    const double excess_s = glide.excess_s(block.middle_s);
    block.warped_middle_s += excess_s;
    block.slope = glide.slope(block.middle_s);
    for (std::size_t n = 0; n < block_length; ++n) {
        const double offset_s = (static_cast<double>(n) - 0.5 * block_length) / sample_rate_hz;
        const double here_s = glide.excess_s(block.middle_s + offset_s);
        block.departure_s[n] = here_s - excess_s - (block.slope - 1.0) * offset_s;
        block.largest_departure_s = std::max(block.largest_departure_s, std::abs(block.departure_s[n]));
    }
    return block;
}

/// State of `lanes` components that are turned on together, so that the compiler can use vector registers.
struct Rotors {
    std::array<double, lanes> re{}, im{}, turn_re{}, turn_im{}, rate{};
};

Rotors rotors_at(std::span<const SyntheticComponent> components, const Block& block, double sample_rate_hz)
{
    Rotors rotors;
    for (std::size_t lane = 0; lane < components.size(); ++lane) {
        const SyntheticComponent& component = components[lane];
        const double warped_s = component.glides ? block.warped_middle_s : block.middle_s;
        const double slope = component.glides ? block.slope : 1.0;
        const double cycles = std::fmod(component.frequency_hz * warped_s, 1.0);
        const double turn = two_pi * component.frequency_hz * slope / sample_rate_hz;
        const double back = 0.5 * block_length;
        const double phase = two_pi * cycles + component.phase_rad - back * turn;
        const double decay = component.decay_per_s / sample_rate_hz;
        const double amplitude =
            component.amplitude * std::exp(-component.decay_per_s * block.middle_s + back * decay);
        rotors.re[lane] = amplitude * std::cos(phase);
        rotors.im[lane] = amplitude * std::sin(phase);
        rotors.turn_re[lane] = std::exp(-decay) * std::cos(turn);
        rotors.turn_im[lane] = std::exp(-decay) * std::sin(turn);
        rotors.rate[lane] = component.glides ? two_pi * component.frequency_hz : 0.0;
    }
    return rotors;
}

void turn_on(Rotors& r)
{
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        const double re = r.re[lane] * r.turn_re[lane] - r.im[lane] * r.turn_im[lane];
        r.im[lane] = r.re[lane] * r.turn_im[lane] + r.im[lane] * r.turn_re[lane];
        r.re[lane] = re;
    }
}

void add_plain(Rotors r, std::array<double, block_length>& sum)
{
    for (double& sample : sum) {
        sample += (r.im[0] + r.im[1]) + (r.im[2] + r.im[3]);
        turn_on(r);
    }
}

/// Sine and cosine of the departing phase `e`, by Taylor's first terms.
struct Departure {
    double sine, cosine;
};
Departure tiny_departure(double e) // |e| < 1e-3 rad: exact to 5e-14
{
    constexpr double third = 1.0 / 6.0;
    const double e2 = e * e;
    return {e * (1.0 - third * e2), 1.0 - 0.5 * e2};
}
Departure small_departure(double e) // |e| < 0.3 rad: exact to 1e-10
{
    constexpr std::array inverse{1.0 / 6.0, 1.0 / 20.0, 1.0 / 42.0, 1.0 / 12.0, 1.0 / 30.0, 1.0 / 56.0};
    const double e2 = e * e;
    return {e * (1.0 - e2 * inverse[0] * (1.0 - e2 * inverse[1] * (1.0 - e2 * inverse[2]))),
            1.0 - 0.5 * e2 * (1.0 - e2 * inverse[3] * (1.0 - e2 * inverse[4] * (1.0 - e2 * inverse[5])))};
}

/// As add_plain, with the phase of each lane departing by its rate times departure_s.
template <class Depart>
void add_gliding(Rotors r, const Block& block, Depart depart, std::array<double, block_length>& sum)
{
    for (std::size_t n = 0; n < block_length; ++n) {
        std::array<double, lanes> value{};
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const Departure departure = depart(r.rate[lane] * block.departure_s[n]);
            value[lane] = r.im[lane] * departure.cosine + r.re[lane] * departure.sine;
        }
        sum[n] += (value[0] + value[1]) + (value[2] + value[3]);
        turn_on(r);
    }
}

/// Adds a group of components by the cheapest way that keeps the promised 1e-9 rad.
void add_rotors(const Rotors& rotors, const Block& block, std::array<double, block_length>& sum)
{
    const double fastest = *std::max_element(rotors.rate.begin(), rotors.rate.end());
    const double largest_rad = fastest * block.largest_departure_s;
    if (largest_rad < 1e-11)
        add_plain(rotors, sum);
    else if (largest_rad < 1e-3)
        add_gliding(
            rotors, block, [](double e) { return tiny_departure(e); }, sum);
    else
        add_gliding(
            rotors, block, [](double e) { return small_departure(e); }, sum);
}

/// Attack and, when a hand stops the string, its end.
double envelope(const SyntheticPluck& pluck, double t)
{
    if (t < 0.0) return 0.0;
    double value = 1.0;
    if (t < pluck.attack_s) value = 0.5 * (1.0 - std::cos(std::numbers::pi * t / pluck.attack_s));
    if (pluck.damp_after_s && t > *pluck.damp_after_s)
        value *= std::exp(-(t - *pluck.damp_after_s) / pluck.damping_time_s);
    return value;
}

bool below_silence(const SyntheticComponent& component, const SyntheticPluck& pluck, double t)
{
    double nepers = component.decay_per_s * t;
    if (pluck.damp_after_s) nepers += std::max(0.0, t - *pluck.damp_after_s) / pluck.damping_time_s;
    return component.amplitude * std::exp(-nepers) < pluck.silence_amplitude;
}

double first_decay_per_s(const SyntheticString& string)
{
    return nepers_per_60_db / string.decay_t60_s;
}

double relative_amplitude(const SyntheticString& string, double plucking_point, int partial,
                          double frequency_hz)
{
    const double k = partial;
    const double r = std::pow(frequency_hz / string.soundboard_hz, 2.0);
    double amplitude = std::abs(std::sin(k * std::numbers::pi * plucking_point)) / k * r / (1.0 + r) *
                       std::exp(-frequency_hz / string.rolloff_hz);
    if (partial == 1) amplitude *= from_db(string.fundamental_db);
    return amplitude;
}

void add_sympathetic(const SyntheticPluck& pluck, RandomSource& random,
                     std::vector<SyntheticComponent>& components)
{
    for (const SympatheticTone& tone : pluck.sympathetic) {
        const double amplitude = std::numbers::sqrt2 * from_db(pluck.level_dbfs + tone.level_db);
        const double decay_per_s = nepers_per_60_db / tone.decay_t60_s;
        const double phase_rad = two_pi * random.uniform();
        // A (exp(-alpha t) - exp(-(alpha + 1 / rise) t)): from nothing up to A and down.
        components.push_back({tone.frequency_hz, amplitude, decay_per_s, phase_rad, false});
        components.push_back({tone.frequency_hz, amplitude, decay_per_s + 1.0 / tone.rise_s,
                              phase_rad + std::numbers::pi, false});
    }
}

} // namespace

SyntheticString generic_string(double first_partial_hz)
{
    HARPKEEP_EXPECTS(first_partial_hz >= 20.0 && first_partial_hz <= 6000.0);
    std::size_t upper = 1;
    while (upper + 1 < curve.size() && curve[upper].frequency_hz < first_partial_hz) ++upper;
    const CurveNode& a = curve[upper - 1];
    const CurveNode& b = curve[upper];
    const double share =
        std::log(first_partial_hz / a.frequency_hz) / std::log(b.frequency_hz / a.frequency_hz);
    const auto between = [share](double low, double high) { return low * std::pow(high / low, share); };

    SyntheticString string;
    string.inharmonicity = between(a.inharmonicity, b.inharmonicity);
    string.ideal_frequency_hz = first_partial_hz / std::sqrt(1.0 + string.inharmonicity);
    string.decay_t60_s = between(a.decay_t60_s, b.decay_t60_s);
    return string;
}

double partial_frequency_hz(const SyntheticString& string, int partial)
{
    HARPKEEP_EXPECTS(partial >= 1);
    const double k = partial;
    const auto index = static_cast<std::size_t>(partial - 1);
    const double deviation_cents =
        index < string.partial_deviations_cents.size() ? string.partial_deviations_cents[index] : 0.0;
    return k * string.ideal_frequency_hz * std::sqrt(1.0 + string.inharmonicity * k * k) *
           std::exp2(deviation_cents / 1200.0);
}

std::vector<SyntheticComponent> components_of(const SyntheticString& string, const SyntheticPluck& pluck,
                                              double sample_rate_hz)
{
    HARPKEEP_EXPECTS(string.decay_t60_s > 0.0 && string.ideal_frequency_hz > 0.0);
    RandomSource random(pluck.phase_seed);
    std::vector<SyntheticComponent> components;
    double power = 0.0;
    for (int k = 1; k <= string.partial_count; ++k) {
        const double frequency_hz = partial_frequency_hz(string, k);
        if (frequency_hz > 0.48 * sample_rate_hz) break;
        const double amplitude = relative_amplitude(string, pluck.plucking_point, k, frequency_hz);
        power += 0.5 * amplitude * amplitude;
        components.push_back({frequency_hz, amplitude,
                              first_decay_per_s(string) * std::pow(k, string.decay_exponent),
                              two_pi * random.uniform(), true});
    }
    HARPKEEP_EXPECTS(power > 0.0);
    const double gain = from_db(pluck.level_dbfs) / std::sqrt(power);
    for (SyntheticComponent& component : components) component.amplitude *= gain;

    const std::size_t partials = components.size();
    for (std::size_t i = 0; pluck.second_polarisation && i < partials; ++i) {
        SyntheticComponent twin = components[i];
        twin.frequency_hz *= std::exp2(pluck.second_polarisation->split_cents / 1200.0);
        twin.amplitude *= from_db(pluck.second_polarisation->level_db);
        twin.decay_per_s *= pluck.second_polarisation->decay_ratio;
        twin.phase_rad = two_pi * random.uniform();
        components.push_back(twin);
    }
    add_sympathetic(pluck, random, components);
    return components;
}

double add_pluck(std::span<double> mix, double sample_rate_hz, double start_s, const SyntheticString& string,
                 const SyntheticPluck& pluck)
{
    HARPKEEP_EXPECTS(sample_rate_hz > 0.0 && start_s >= 0.0);
    const Glide glide(pluck.glide_cents, first_decay_per_s(string));
    auto components = components_of(string, pluck, sample_rate_hz);
    const auto first = static_cast<std::size_t>(std::ceil(start_s * sample_rate_hz));
    double energy = 0.0;

    for (std::size_t at = first; at < mix.size() && !components.empty(); at += block_length) {
        const double first_s = static_cast<double>(at) / sample_rate_hz - start_s;
        std::erase_if(components, [&](const auto& c) { return below_silence(c, pluck, first_s); });
        const Block block = block_at(glide, first_s, sample_rate_hz);
        std::array<double, block_length> sum{};
        for (std::size_t i = 0; i < components.size(); i += lanes) {
            const auto group = std::span(components).subspan(i, std::min(lanes, components.size() - i));
            add_rotors(rotors_at(group, block, sample_rate_hz), block, sum);
        }
        for (std::size_t n = 0; n < std::min(block_length, mix.size() - at); ++n) {
            const double t = first_s + static_cast<double>(n) / sample_rate_hz;
            const double sample = sum[n] * envelope(pluck, t);
            mix[at + n] += sample;
            if (t < 0.5) energy += sample * sample;
        }
    }
    return energy;
}

std::vector<double> render_pluck(const SyntheticString& string, const SyntheticPluck& pluck,
                                 double sample_rate_hz, double duration_s)
{
    std::vector<double> samples(static_cast<std::size_t>(std::llround(duration_s * sample_rate_hz)), 0.0);
    add_pluck(samples, sample_rate_hz, 0.0, string, pluck);
    return samples;
}

} // namespace harpkeep
