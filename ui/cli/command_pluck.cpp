// SPDX-License-Identifier: MIT
#include "harp/expected_pitch.hpp"
#include "intake/recording.hpp"
#include "ui/cli/check_output.hpp"
#include "ui/cli/commands.hpp"
#include "units/format.hpp"
#include "units/interval.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <memory>

namespace harpkeep::cli {

namespace {

struct PluckWords {
    std::vector<std::string> files;
    std::string near;
};

/// "4C" (natural, A4 = 440 Hz) or a frequency in Hz.
Result<Hertz> near_argument(const std::string& text)
{
    if (const auto place = place_from_harp_name(text))
        return equal_temperament(key_number(*place, 0), Hertz{440.0});
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !(value >= 15.0 && value <= 8000.0))
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("--near {} is neither a string, as in 4C, nor a frequency between 15 and 8000 Hz",
                        text));
    return Hertz{value};
}

/// Of a pluck's possible pitches the one nearest to what was named.
PluckMeasurement nearest_pitch(const PluckMeasurement& pluck, Hertz near)
{
    const PluckMeasurement* best = &pluck;
    const auto off = [&](const PluckMeasurement& m) {
        return std::abs(interval(near, Hertz{m.frequency_hz}).value());
    };
    for (const auto& rival : pluck.rivals)
        if (off(rival) < off(*best)) best = &rival;
    return *best;
}

void print_pluck(const PluckMeasurement& pluck)
{
    std::string reasons;
    for (const Doubt doubt : pluck.doubts)
        reasons += fmt::format("{}{}", reasons.empty() ? "" : ", ", doubt_name(doubt));
    print_line(fmt::format("  {:7.2f} s  {:>11}  ± {:.3f} cents  B {:.2e}  decay {:.2f} s  snr {:.0f} dB  {}",
                           pluck.start_s, format_hertz(Hertz{pluck.frequency_hz}, 3), pluck.uncertainty_cents,
                           pluck.inharmonicity, pluck.decay_s, pluck.snr_db, reasons));
}

Result<void> measure(const Common& common, const PluckWords& words)
{
    std::optional<Hertz> near;
    if (!words.near.empty()) {
        const auto named = near_argument(words.near);
        if (!named) return failure(named.error());
        near = *named;
    }
    for (const auto& file : words.files) {
        const auto heard = hear_recording(file);
        if (!heard) return failure(heard.error());
        if (!common.json) print_line(fmt::format("{}: {}", file, counted(heard->plucks.size(), "pluck")));
        for (const auto& pluck : heard->plucks) {
            const auto chosen = near ? nearest_pitch(pluck, *near) : pluck;
            if (common.json)
                print_json_line(json_of_pluck(file, chosen));
            else
                print_pluck(chosen);
        }
        if (!common.json)
            for (const auto& remark : heard->remarks) print_line("  " + remark);
    }
    return {};
}

} // namespace

void add_command_pluck(CLI::App& app, Common& common, Work& work)
{
    auto words = std::make_shared<PluckWords>();
    auto* subcommand =
        app.add_subcommand("pluck", "measure every pluck in recordings, without a harp or ledger");
    subcommand->add_option("files", words->files, "recordings")->required();
    subcommand->add_option("--near", words->near, "the pitch to expect: a string, as in 4C, or Hz");
    add_common_options(*subcommand, common);
    subcommand->callback(
        [words, &common, &work] { work = [words, &common] { return measure(common, *words); }; });
}

} // namespace harpkeep::cli
