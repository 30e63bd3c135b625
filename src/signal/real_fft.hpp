// SPDX-License-Identifier: MIT
#pragma once

#include <complex>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace harpkeep {

/// Forward transform of real samples of one fixed, even length (KissFFT, single precision: its rounding lies
/// 130 dB under the signal, enough to find peaks; frequencies are measured elsewhere, in double).
class RealFft {
  public:
    explicit RealFft(std::size_t length);
    ~RealFft();
    RealFft(RealFft&&) noexcept;
    RealFft& operator=(RealFft&&) noexcept;

    [[nodiscard]] std::size_t length() const { return length_; }

    /// Given    `length()` samples
    /// Returns  length()/2 + 1 bins, valid until the next call; not scaled
    [[nodiscard]] std::span<const std::complex<float>> operator()(std::span<const float> samples);

  private:
    struct Plan;
    std::unique_ptr<Plan> plan_;
    std::size_t length_;
    std::vector<std::complex<float>> bins_;
};

/// The smallest length >= `at_least` that is even and has no prime factor above 5.
[[nodiscard]] std::size_t fast_transform_length(std::size_t at_least);

} // namespace harpkeep
