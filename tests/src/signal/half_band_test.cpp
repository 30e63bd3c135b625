// SPDX-License-Identifier: MIT
#include "signal/half_band.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace harpkeep;

namespace {

/// A cosine through the filter, in pieces that fit nothing.
std::vector<float> filtered(double turns_per_sample, std::size_t length, std::size_t piece = 997)
{
    std::vector<float> input(length), output;
    for (std::size_t n = 0; n < length; ++n)
        input[n] = static_cast<float>(
            std::cos(2.0 * std::numbers::pi * std::fmod(turns_per_sample * static_cast<double>(n), 1.0)));
    HalfBand filter;
    for (std::size_t at = 0; at < length; at += piece)
        filter.push(std::span{input}.subspan(at, std::min(piece, length - at)), output);
    filter.finish(output);
    return output;
}

} // namespace

TEST_CASE("half band: what lies below 0.35 of the output rate passes at its time, unchanged", "[property]")
{
    for (const double share : {0.01, 0.1, 0.2, 0.3, 0.35}) {
        const double turns = 0.5 * share; // per input sample
        const auto output = filtered(turns, 4000);
        REQUIRE(output.size() == 2000);
        for (std::size_t m = 50; m + 50 < output.size(); ++m) {
            const double expected =
                std::cos(2.0 * std::numbers::pi * std::fmod(turns * 2.0 * static_cast<double>(m), 1.0));
            REQUIRE(std::abs(static_cast<double>(output[m]) - expected) <
                    1e-5); // the ripple that is promised
        }
    }
}

TEST_CASE("half band: what lies above 0.65 of the output rate is suppressed by 100 dB", "[property]")
{
    for (const double share : {0.65, 0.7, 0.8, 0.9, 0.99}) {
        const auto output = filtered(0.5 * share, 4000);
        float largest = 0.0F;
        for (std::size_t m = 50; m + 50 < output.size(); ++m)
            largest = std::max(largest, std::abs(output[m]));
        INFO(share);
        CHECK(largest < 1e-5F); // 100 dB
    }
}

TEST_CASE("half band: the pieces in which the sound comes do not matter", "[property]")
{
    CHECK(filtered(0.123, 3001, 1) == filtered(0.123, 3001, 4096));
}
