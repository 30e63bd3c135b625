// SPDX-License-Identifier: MIT
#include "tests/benchmarks/register_pool.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::benchmarks {

void RegisterPool::add(double string_hz, double error_cents, double uncertainty_cents,
                       double degrees_of_freedom)
{
    const auto above = std::upper_bound(from_hz.begin() + 1, from_hz.end(), string_hz);
    cells_[static_cast<std::size_t>(above - from_hz.begin()) - 1].add(error_cents, uncertainty_cents,
                                                                      degrees_of_freedom);
}

void RegisterPool::add(double string_hz, const std::vector<double>& errors_cents,
                       const std::vector<double>& uncertainties_cents, const std::vector<double>& freedoms)
{
    for (std::size_t i = 0; i < errors_cents.size(); ++i)
        add(string_hz, errors_cents[i], uncertainties_cents[i], freedoms[i]);
}

std::string RegisterPool::table(const std::string& title) const
{
    std::string text = fmt::format("{:<18}{}\n", title, tests::interval_head());
    tests::IntervalCell all;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
        all.add(cells_[i]);
        const std::string name = i + 1 < from_hz.size()
                                     ? fmt::format("{:.0f} to {:.0f} Hz", from_hz[i], from_hz[i + 1])
                                     : fmt::format("{:.0f} Hz on", from_hz[i]);
        if (cells_[i].count() > 0) text += fmt::format("{:<18}{}\n", name, tests::interval_row(cells_[i]));
    }
    return text + fmt::format("{:<18}{}\n", "all", tests::interval_row(all));
}

} // namespace harpkeep::benchmarks
