// SPDX-License-Identifier: MIT
#include "tests/benchmarks/step_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep::benchmarks {

namespace {

constexpr double gross_cents = 25.0;
constexpr std::array<double, 8> octave_edges_hz{31.0, 65.0, 131.0, 262.0, 523.0, 1046.0, 2093.0, 4000.0};

double percentile(const std::vector<double>& sorted, double share)
{
    if (sorted.empty()) return std::nan("");
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return std::lerp(sorted[below], sorted[above], place - static_cast<double>(below));
}

std::string cell(const StepSummary& summary)
{
    if (summary.count == 0) return "-";
    std::string text = std::isnan(summary.median_cents)
                           ? "-"
                           : fmt::format("{:.2f}|{:.2f}", summary.median_cents, summary.p95_cents);
    if (summary.gross_share > 0.0) text += fmt::format(" g{:.0f}%", 100.0 * summary.gross_share);
    if (summary.missing_share > 0.0) text += fmt::format(" n{:.0f}%", 100.0 * summary.missing_share);
    return text;
}

/// "0.08 of mcomb 8192"
std::string ratio_cell(const std::vector<StepOutcome>& own, const std::vector<MethodOutcomes>& others,
                       double lowest_hz, double highest_hz)
{
    constexpr double most_failed = 0.5;
    const MethodOutcomes* best = nullptr;
    double least_cents = 0.0;
    for (const MethodOutcomes& other : others) {
        const StepSummary summary = summarise(other.outcomes, lowest_hz, highest_hz);
        if (summary.count == 0 || summary.gross_share + summary.missing_share > most_failed) continue;
        if (best == nullptr || summary.p95_cents < least_cents)
            best = &other, least_cents = summary.p95_cents;
    }
    const StepSummary summary = summarise(own, lowest_hz, highest_hz);
    if (best == nullptr || summary.count == 0) return "-";
    return fmt::format("{:.3f} of {}", summary.p95_cents / least_cents, best->method);
}

} // namespace

StepSummary summarise(const std::vector<StepOutcome>& outcomes, double lowest_hz, double highest_hz)
{
    StepSummary summary;
    std::vector<double> fine;
    int missing = 0;
    for (const StepOutcome& outcome : outcomes) {
        if (outcome.natural_hz < lowest_hz || outcome.natural_hz >= highest_hz) continue;
        ++summary.count;
        missing += !outcome.error_cents;
        if (outcome.error_cents && std::abs(*outcome.error_cents) <= gross_cents)
            fine.push_back(std::abs(*outcome.error_cents));
    }
    if (summary.count == 0) return summary;
    std::sort(fine.begin(), fine.end());
    summary.median_cents = percentile(fine, 0.5);
    summary.p95_cents = percentile(fine, 0.95);
    const int gross = summary.count - missing - static_cast<int>(fine.size());
    summary.gross_share = static_cast<double>(gross) / summary.count;
    summary.missing_share = static_cast<double>(missing) / summary.count;
    return summary;
}

std::string table_head(const std::string& title)
{
    std::string line = fmt::format("{:<18}{:>22}", title, "all");
    for (std::size_t i = 0; i + 1 < octave_edges_hz.size(); ++i)
        line += fmt::format("{:>22}",
                            fmt::format("{:.0f}-{:.0f} Hz", octave_edges_hz[i], octave_edges_hz[i + 1]));
    return line;
}

std::string table_row(const std::string& method, const std::vector<StepOutcome>& outcomes)
{
    std::string line = fmt::format("{:<18}{:>22}", method, cell(summarise(outcomes, 0.0, 1e9)));
    for (std::size_t i = 0; i + 1 < octave_edges_hz.size(); ++i)
        line += fmt::format("{:>22}", cell(summarise(outcomes, octave_edges_hz[i], octave_edges_hz[i + 1])));
    return line;
}

std::string ratio_row(const std::vector<StepOutcome>& own, const std::vector<MethodOutcomes>& others)
{
    std::string line = fmt::format("{:<18}{:>22}", "95 %: ratio to", ratio_cell(own, others, 0.0, 1e9));
    for (std::size_t i = 0; i + 1 < octave_edges_hz.size(); ++i)
        line += fmt::format("{:>22}", ratio_cell(own, others, octave_edges_hz[i], octave_edges_hz[i + 1]));
    return line;
}

} // namespace harpkeep::benchmarks
