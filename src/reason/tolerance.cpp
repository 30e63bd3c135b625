// SPDX-License-Identifier: MIT
#include "reason/tolerance.hpp"

#include "base/expects.hpp"

namespace harpkeep {

namespace {

ToleranceBand scaled(const ToleranceBand& band, double factor)
{
    return {band.lower * factor, band.upper * factor};
}

} // namespace

ToleranceBand tolerance_of(const ToleranceSettings& settings, StringPlace place, std::optional<Step> step)
{
    const auto own = settings.by_harp_octave.find(place.harp_octave());
    const auto& band = own == settings.by_harp_octave.end() ? settings.standard : own->second;
    HARPKEEP_EXPECTS(band.lower < 0.0 && band.upper > 0.0);
    HARPKEEP_EXPECTS(settings.whole_step_factor > 0.0);
    return step ? band : scaled(band, settings.whole_step_factor);
}

ToleranceBand watch_band_of(const ToleranceSettings& settings, StringPlace place, std::optional<Step> step)
{
    HARPKEEP_EXPECTS(settings.watch_share > 0.0);
    return scaled(tolerance_of(settings, place, step), settings.watch_share);
}

} // namespace harpkeep
