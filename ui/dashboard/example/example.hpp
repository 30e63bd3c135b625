// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/page_models.hpp"
#include "ui/dashboard/source.hpp"

#include <cstdint>

namespace harpkeep::dashboard::example {

// The Larkmoor Community Music School, invented for pictures and tests: every figure is made by the rules in
// these files from fixed seeds; nothing is measured.

/// The day on which all of it is looked at.
inline constexpr Day today_day = std::chrono::year{2026} / 11 / 24;

/// Numbers that look random and are the same everywhere.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    /// Even in [0, 1).
    double even();
    /// Standard normal.
    double normal();

  private:
    std::uint64_t state_;
};

[[nodiscard]] HarpHeading heron();
[[nodiscard]] HarpLayout layout_of_heron();

[[nodiscard]] TodayModel today();
[[nodiscard]] GuidedModel guided(LivePhase phase, Way way);
[[nodiscard]] TuningModel tuning(bool listening, double moment_s);
[[nodiscard]] HistoryModel history(const HistoryChoice& choice, int before, int after);
[[nodiscard]] StringsModel strings(int horizon_days);
[[nodiscard]] TensionModel tension(const std::optional<TryGauge>& trial);
[[nodiscard]] PedalsModel pedals(const PedalSetting& setting);
[[nodiscard]] VisitsModel visits();
[[nodiscard]] ClimateModel climate();
/// Given  harps  how many instruments the school has, at least 4
[[nodiscard]] RoomModel room(int harps);

} // namespace harpkeep::dashboard::example
