// SPDX-License-Identifier: MIT
#include "signal/real_fft.hpp"

#include "base/expects.hpp"

#include <kiss_fftr.h>

namespace harpkeep {

struct RealFft::Plan {
    explicit Plan(std::size_t length) : config(kiss_fftr_alloc(static_cast<int>(length), 0, nullptr, nullptr))
    {
    }
    ~Plan() { kiss_fftr_free(config); }
    Plan(const Plan&) = delete;
    Plan& operator=(const Plan&) = delete;
    kiss_fftr_cfg config;
};

RealFft::RealFft(std::size_t length)
    : plan_((length >= 2 && length % 2 == 0) ? std::make_unique<Plan>(length) : nullptr),
      length_(length),
      bins_(length / 2 + 1)
{
    HARPKEEP_EXPECTS(plan_ && plan_->config);
}

RealFft::~RealFft() = default;
RealFft::RealFft(RealFft&&) noexcept = default;
RealFft& RealFft::operator=(RealFft&&) noexcept = default;

std::span<const std::complex<float>> RealFft::operator()(std::span<const float> samples)
{
    HARPKEEP_EXPECTS(samples.size() == length_);
    // std::complex<float> has the layout of kiss_fft_cpx: two floats ([complex.numbers.general]).
    kiss_fftr(plan_->config, samples.data(), reinterpret_cast<kiss_fft_cpx*>(bins_.data()));
    return bins_;
}

std::size_t fast_transform_length(std::size_t at_least)
{
    for (std::size_t length = at_least + at_least % 2;; length += 2) {
        std::size_t rest = length;
        for (const std::size_t factor : {std::size_t{2}, std::size_t{3}, std::size_t{5}})
            while (rest > 1 && rest % factor == 0) rest /= factor;
        if (rest == 1) return length;
    }
}

} // namespace harpkeep
