// SPDX-License-Identifier: MIT
#include "audio/capture_continuity.hpp"

#include "base/expects.hpp"

#include <cmath>

namespace harpkeep {

namespace {

// Share of a block's deviation by which the base line follows: 100 ppm over 20 ms blocks leaves it 0.04 ms
// behind, far under every limit, and a jitter of one block moves it by a twentieth.
constexpr double baseline_gain = 0.05;

} // namespace

CaptureContinuity::CaptureContinuity(Hertz rate) : rate_hz_(rate.value())
{
    HARPKEEP_EXPECTS(rate_hz_ > 0.0);
}

void CaptureContinuity::reset()
{
    expected_s_.reset();
    flag_until_s_.reset();
}

double CaptureContinuity::jump_of(const BlockStamp& stamp) const
{
    return expected_s_ ? stamp.first_sample_s - *expected_s_ : 0.0;
}

bool CaptureContinuity::is_flagged(const BlockStamp& stamp) const
{
    return stamp.overflow || (flag_until_s_ && stamp.first_sample_s <= *flag_until_s_);
}

bool CaptureContinuity::needs_next(const BlockStamp& stamp) const
{
    return !is_flagged(stamp) && std::abs(jump_of(stamp)) > silent_jump.value();
}

bool CaptureContinuity::takes_back(const BlockStamp& stamp, const BlockStamp& next) const
{
    const double next_expected_s = *expected_s_ + stamp.frames / rate_hz_;
    return std::abs(next.first_sample_s - next_expected_s) <= silent_jump.value();
}

std::optional<StreamGap> CaptureContinuity::operator()(const BlockStamp& stamp, const BlockStamp* next)
{
    const double block_s = stamp.frames / rate_hz_;
    if (next && needs_next(stamp) && takes_back(stamp, *next)) {
        *expected_s_ += block_s;
        return std::nullopt;
    }
    const double jump = jump_of(stamp);
    const bool remembered = flag_until_s_ && stamp.first_sample_s <= *flag_until_s_;
    const auto gap = judge(jump, stamp.overflow || remembered, stamp.overflow && !remembered);

    if (stamp.overflow) flag_until_s_ = stamp.first_sample_s + flag_memory.value();
    const double followed_s = gap || std::abs(jump) > silent_jump.value() ? jump : baseline_gain * jump;
    expected_s_ = expected_s_.value_or(stamp.first_sample_s) + followed_s + block_s;
    return gap;
}

std::optional<StreamGap> CaptureContinuity::judge(double jump_s, bool flagged, bool first_flag)
{
    const double limit_s = flagged ? flagged_jump.value() : silent_jump.value();
    if (jump_s > limit_s)
        return StreamGap{.lost_frames = static_cast<std::uint64_t>(std::llround(jump_s * rate_hz_)),
                         .counted = true};
    // A clock that steps back says nothing about how much is missing.
    if (first_flag || jump_s < -silent_jump.value()) return StreamGap{};
    return std::nullopt;
}

} // namespace harpkeep
