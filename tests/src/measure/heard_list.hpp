// SPDX-License-Identifier: MIT
#pragma once

#include "harp/expected_pitch.hpp"
#include "harp/harp_layout.hpp"
#include "measure/placement.hpp"
#include "synth/random_source.hpp"
#include "synth/synthetic_playing.hpp"

#include <cmath>
#include <fmt/format.h>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep::tests {

/// Plucks as the engine would hand them over, written down instead of heard, with where they belong.
struct HeardList {
    HarpLayout layout;
    Hertz a4{440.0};
    std::function<double(std::size_t string)> off_cents = [](std::size_t) { return 0.0; }; ///< of each string
    std::vector<HeardPluck> plucks;
    std::vector<std::optional<PlannedPluck>> truth;
    int file = 0;
    std::optional<Position> pass;
    double time_s = 0.0;

    [[nodiscard]] double frequency_hz(const PlannedPluck& of, double further_cents = 0.0) const
    {
        const auto& string = layout.strings[of.string_index];
        const Hertz equal =
            equal_temperament(key_number(string.place, alteration_of(string, of.position)), a4);
        return equal.value() * std::exp2((off_cents(of.string_index) + further_cents) / 1200.0);
    }

    void pluck(const PlannedPluck& of, double further_cents = 0.0)
    {
        sound(frequency_hz(of, further_cents));
        truth.back() = of;
    }

    /// Something with a pitch that is not one of the plucks meant.
    void sound(double first_hz)
    {
        PluckMeasurement heard{.start_s = time_s += 1.7,
                               .frequency_hz = first_hz,
                               .uncertainty_cents = 0.1,
                               .degrees_of_freedom = 8.0,
                               .inharmonicity = 1e-4};
        for (int k = 1; k <= 6; ++k)
            heard.partials.push_back(
                {.number = k,
                 .frequency_hz = k * first_hz * std::sqrt((1.0 + 1e-4 * k * k) / (1.0 + 1e-4)),
                 .uncertainty_cents = 0.1,
                 .noise_cents = 0.1,
                 .level_db = -30.0,
                 .decay_s = 1.0});
        plucks.push_back({file, heard, pass});
        truth.emplace_back();
    }

    void play(std::span<const PlannedPluck> plan)
    {
        for (const auto& planned : plan) pluck(planned);
    }

    [[nodiscard]] PluckPlacement placement(double told_a4_hz = 440.0) const
    {
        return place_plucks(layout, Hertz{told_a4_hz}, plucks);
    }

    /// Plucks that were not placed where they belong (a stray sound belongs nowhere); `doubted` ones are
    /// known to the program as such.
    struct Misplaced {
        int confident = 0;
        int doubted = 0;
        int lost = 0; ///< placed nowhere
        std::string which;
    };
    [[nodiscard]] Misplaced misplaced(const PluckPlacement& found) const
    {
        std::vector<const PlacedPluck*> placed(plucks.size(), nullptr);
        for (const auto& one : found.placed) placed[one.pluck] = &one;
        Misplaced result;
        for (std::size_t n = 0; n < truth.size(); ++n) {
            const auto* one = placed[n];
            if (!one && !truth[n]) continue;
            if (one && truth[n] && one->string == truth[n]->string_index &&
                one->position == truth[n]->position)
                continue;
            const bool doubted = one && (one->ambiguous || std::abs(one->off_cents) > 60.0);
            ++(!one ? result.lost : doubted ? result.doubted : result.confident);
            result.which +=
                fmt::format("{}: {}{} for {}\n", n, one ? name_of(one->string, one->position) : "nowhere",
                            doubted ? " (doubted)" : "",
                            truth[n] ? name_of(truth[n]->string_index, truth[n]->position) : "a stray sound");
        }
        return result;
    }
    [[nodiscard]] std::string name_of(std::size_t string, Position position) const
    {
        return fmt::format("{} {}", harp_name(layout.strings[string].place), position_name(position));
    }
};

} // namespace harpkeep::tests
