// SPDX-License-Identifier: MIT
#pragma once

#include "report/paper.hpp"
#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/palette.hpp"

#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// How a string place is called.
enum class NameStyle { harp_octave, scientific, number };

/// What the window remembers between starts; kept outside the ledger.
struct Settings {
    ThemeKind theme = ThemeKind::light;
    double font_scale = 1.0; ///< 0.8 to 2.5
    bool grow = true;        ///< larger in a very large window
    NameStyle names = NameStyle::harp_octave;
    bool dark_f = false; ///< F strings drawn black instead of blue
    double a4_hz = 440.0;
    std::string input_device; ///< empty: asked each time
    RecordKey last_harp;      ///< shown first at the next start
    report::Paper paper = report::Paper::a4;

    bool operator==(const Settings&) const = default;
};

inline constexpr double smallest_font_scale = 0.8;
inline constexpr double largest_font_scale = 2.5;

/// Tolerance of the steps, kept in the ledger for each harp.
struct ToleranceChoice {
    double low_cents = -5.0;
    double high_cents = 5.0;
    double top_low_cents = -3.0; ///< octaves 0 and 1
    double top_high_cents = 8.0;

    bool operator==(const ToleranceChoice&) const = default;
};

struct SettingsModel {
    HarpHeading harp;
    ToleranceChoice tolerance;
    std::string ledger_path;
    std::string ledger_text; ///< "12 harps, 214 checks, 8.3 MB, last copied 2026-11-20"
    std::string version;
    bool example = false; ///< it is the invented school
};

} // namespace harpkeep::dashboard
