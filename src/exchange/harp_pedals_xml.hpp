// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/pedal_setting.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// A pedal setting as MusicXML: a direction with one harp-pedals element, pedals in the order D C B E F G A.
///
/// Reference  W3C MusicXML 4.0, elements direction, direction-type, harp-pedals, pedal-tuning; the W3C
/// example is
///            the golden file tests/golden/harp_pedals_example.xml
[[nodiscard]] std::string harp_pedals_xml(const PedalSetting& setting);

/// The settings of all harp-pedals elements in a MusicXML text, in order. As the standard says, a pedal that
/// is not named stays where it was; before the first it is natural.
///
/// Returns  the settings; unusable when there is none, or a step or alteration is none of a harp's
/// Notes    Reads these elements only, not the whole score; comments are skipped.
[[nodiscard]] Result<std::vector<PedalSetting>> pedal_settings_from_xml(std::string_view xml);

} // namespace harpkeep
