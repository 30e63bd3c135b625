// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/staged/staged_source.hpp"

#include <memory>
#include <string>

namespace harpkeep::dashboard {

/// Where schools lie that were made once for many test programs, from HARPKEEP_TEST_SCHOOLS; empty: nowhere.
[[nodiscard]] std::string folder_of_made_schools();

/// Makes the school of so many harps below a folder, unless it lies there.
[[nodiscard]] Result<std::string> made_school(const std::string& folder, int harps);

/// The invented school as a copy of one that was made before, so that nothing is seen of what other tests did and
/// making it costs its seconds once: for all programs when ctest made it, else once for the program.
///
/// Given  folder  of its own, not there yet
[[nodiscard]] std::shared_ptr<Source> fresh_school(const std::string& folder, const StagedSchool& school);

} // namespace harpkeep::dashboard
