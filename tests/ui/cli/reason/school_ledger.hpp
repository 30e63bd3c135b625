// SPDX-License-Identifier: MIT
#pragma once

#include "harp/expected_pitch.hpp"
#include "records/check_record.hpp"
#include "tests/support/example_ledger.hpp"
#include "tests/support/planted_harp.hpp"
#include "units/interval.hpp"

#include <nlohmann/json.hpp>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <string>
#include <vector>

namespace harpkeep::test {

/// What a run of the program printed, and its exit code.
struct Run {
    std::string output; ///< standard output and error
    int exit_code = -1;

    [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(output); }
    [[nodiscard]] bool says(const std::string& part) const { return output.find(part) != std::string::npos; }
};

/// Runs harpkeep on a ledger; each argument is taken as one word.
inline Run run_harpkeep(const std::string& ledger, const std::vector<std::string>& arguments)
{
    const auto quoted = [](const std::string& word) {
        std::string result = "'";
        for (const char letter : word)
            result += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
        return result + "'";
    };
    std::string command = quoted(HARPKEEP_PROGRAM);
    for (const auto& argument : arguments) command += " " + quoted(argument);
    command += " --ledger " + quoted(ledger) + " 2>&1";
    Run run;
    std::FILE* pipe = ::popen(command.c_str(), "r");
    std::array<char, 4096> buffer{};
    while (const auto count = std::fread(buffer.data(), 1, buffer.size(), pipe))
        run.output.append(buffer.data(), count);
    const int status = ::pclose(pipe);
    run.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return run;
}

/// A check that the steps of a planted harp would have come from: readings at the pitches that they give.
inline CheckResult check_result(const PlantedHarp& harp)
{
    CheckResult result;
    result.steps = harp.steps;
    result.whole_steps = harp.whole_steps;
    for (const auto& string : harp.layout.strings) {
        std::array<double, 3> off_cents{};
        for (const auto& step : harp.steps)
            if (step.place == string.place && step.step == Step::lower) off_cents[1] = step.error_cents;
        off_cents[2] = off_cents[1];
        for (const auto& step : harp.steps)
            if (step.place == string.place && step.step == Step::upper) off_cents[2] += step.error_cents;
        for (const Position position : positions_of(harp.layout.kind, string)) {
            Reading reading{.place = string.place, .position = position};
            const double cents = off_cents[static_cast<std::size_t>(semitones_above_open(position))];
            reading.pluck.frequency_hz =
                raised(expected_pitch(string, position, Hertz{440.0}), Cents{cents}).value();
            reading.pluck.uncertainty_cents = 0.2;
            reading.pluck.degrees_of_freedom = 20.0;
            reading.pluck.start_s = static_cast<double>(result.readings.size()) * 2.0;
            result.readings.push_back(reading);
        }
    }
    return result;
}

inline constexpr std::int64_t day_ms = 86'400'000;

} // namespace harpkeep::test
