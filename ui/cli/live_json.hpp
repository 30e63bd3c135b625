// SPDX-License-Identifier: MIT
#pragma once

#include "audio/capture_continuity.hpp"
#include "live/guided_check.hpp"
#include "live/room_check.hpp"
#include "live/tuning_aid.hpp"

#include <nlohmann/json.hpp>

namespace harpkeep::cli {

// The lines that live commands print with --json. Every line has an "event"; frequencies are in Hz, intervals
// in cents, times in seconds of the stream.

[[nodiscard]] nlohmann::json target_json(const CheckTarget& target);
/// {"event":"notice","notice":"ask-again","place":"4C","position":"flat","text":...}
[[nodiscard]] nlohmann::json notice_json(const CheckNotice& notice, HarpKind kind);
/// {"event":"kept","place":"4C","position":"flat","frequency_hz":...,"uncertainty_cents":...}
[[nodiscard]] nlohmann::json kept_json(const KeptReading& kept);
/// {"event":"next",...}: which setting to make, what to pluck, how much is left.
[[nodiscard]] nlohmann::json next_json(const GuidedCheckView& view);
/// {"event":"heard",...}: what sounds now.
[[nodiscard]] nlohmann::json heard_json(const HeardNow& heard);
/// {"event":"room",...}: noise, hum and level before a check, with advice.
[[nodiscard]] nlohmann::json room_json(const RoomReport& report);
/// {"event":"gap","lost_frames":...}: samples are missing; without a number it is not known how many.
[[nodiscard]] nlohmann::json gap_json(const StreamGap& gap);
/// {"event":"pitch",...}: the sounding string of the tuning aid and how far it is.
[[nodiscard]] nlohmann::json pitch_json(const TuningView& view);

} // namespace harpkeep::cli
