// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/app.hpp"
#include "ui/dashboard/staged/staged_source.hpp"

#include <functional>
#include <vector>

namespace harpkeep::dashboard {

/// One picture: what the invented school holds, and what is pressed before it is taken.
struct Scene {
    const char* name;
    StagedSchool school;
    std::function<void(App&)> arrange;
    bool in_guide = false; ///< the user guide shows it
};

[[nodiscard]] const std::vector<Scene>& all_scenes();

} // namespace harpkeep::dashboard
