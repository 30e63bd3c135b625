// SPDX-License-Identifier: MIT
#pragma once

#include "live/pluck_listener.hpp"
#include "measure/pluck_stream.hpp"
#include "units/quantity.hpp"

namespace harpkeep {

/// The engine of the measurements behind a live stream that may have holes.
///
/// Notes  After a hole the engine begins anew, so that nothing is measured across it; times and numbers of
///        plucks go on.
class StreamListener : public PluckListener {
  public:
    explicit StreamListener(Hertz rate);

    [[nodiscard]] std::vector<PluckEvent> push(std::span<const float> samples,
                                               std::uint64_t first_frame) override;
    [[nodiscard]] std::vector<PluckEvent> skip_to(std::uint64_t at_frame) override;
    [[nodiscard]] std::vector<PluckEvent> finish() override;

  private:
    [[nodiscard]] std::vector<PluckEvent> placed(std::vector<PluckEvent> events);

    PluckStream::Settings settings_;
    PluckStream stream_;
    double offset_s_ = 0.0; ///< of the engine's time from that of the stream
    int number_offset_ = 0; ///< of the engine's numbers of plucks
    int highest_number_ = 0;
    bool begun_ = false;
};

} // namespace harpkeep
