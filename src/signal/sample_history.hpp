// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep {

/// The newest part of an endless row of samples, addressed by its index from the very first sample.
class SampleHistory {
  public:
    explicit SampleHistory(std::size_t keep) : keep_(keep) {}

    void append(std::span<const float> samples)
    {
        if (samples_.size() > 2 * keep_ + samples.size()) {
            const std::size_t drop = samples_.size() - keep_;
            samples_.erase(samples_.begin(), samples_.begin() + static_cast<std::ptrdiff_t>(drop));
            first_ += static_cast<std::int64_t>(drop);
        }
        samples_.insert(samples_.end(), samples.begin(), samples.end());
    }

    [[nodiscard]] std::int64_t first() const { return first_; }
    [[nodiscard]] std::int64_t end() const { return first_ + static_cast<std::int64_t>(samples_.size()); }

    /// Samples [from, to) as far as they are still, or already, held.
    [[nodiscard]] std::span<const float> range(std::int64_t from, std::int64_t to) const
    {
        from = from < first_ ? first_ : from;
        to = to > end() ? end() : to;
        if (to <= from) return {};
        return std::span{samples_}.subspan(static_cast<std::size_t>(from - first_),
                                           static_cast<std::size_t>(to - from));
    }

  private:
    std::size_t keep_;
    std::int64_t first_ = 0;
    std::vector<float> samples_;
};

} // namespace harpkeep
