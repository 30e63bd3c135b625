// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "ui/dashboard/models/settings_model.hpp"

#include <string>
#include <string_view>

namespace harpkeep::dashboard {

/// Folder for what the window remembers: harpkeep under $XDG_STATE_HOME, or under ~/.local/state. Made when
/// it is not there; empty when there is no home.
[[nodiscard]] std::string state_folder();

/// The settings as lines "name value".
[[nodiscard]] std::string text_of(const Settings& settings);
/// Reads such lines; a line that is unknown or makes no sense leaves its setting as it was.
[[nodiscard]] Settings settings_from_text(std::string_view text, Settings settings = {});

/// Settings of the last time, or the usual ones when there are none.
[[nodiscard]] Settings load_settings(const std::string& folder);
/// Writes them beside the old ones and then takes their place, so that a crash leaves one or the other whole.
[[nodiscard]] Result<void> save_settings(const std::string& folder, const Settings& settings);

} // namespace harpkeep::dashboard
