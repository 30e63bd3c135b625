// SPDX-License-Identifier: MIT
#include "tests/benchmarks/harpkeep_step.hpp"

namespace harpkeep::benchmarks {

std::optional<double> measure_step(const std::vector<float>& /*a*/, const std::vector<float>& /*b*/,
                                   double /*rate*/, double /*near_hz*/)
{
    return std::nullopt;
}

std::optional<std::size_t> analyse_whole_harp(const SyntheticHarp& /*harp*/,
                                              const SyntheticRecording& /*recording*/)
{
    return std::nullopt;
}

} // namespace harpkeep::benchmarks
