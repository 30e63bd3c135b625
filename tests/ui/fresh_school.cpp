// SPDX-License-Identifier: MIT
#include "fresh_school.hpp"

#include "tests/support/temporary_folder.hpp"

#include <cstdlib>
#include <filesystem>

namespace harpkeep::dashboard {

std::string folder_of_made_schools()
{
    const char* folder = std::getenv("HARPKEEP_TEST_SCHOOLS");
    return folder == nullptr ? std::string{} : std::string{folder};
}

Result<std::string> made_school(const std::string& folder, int harps)
{
    const std::string school = (std::filesystem::path{folder} / std::to_string(harps)).string();
    if (std::filesystem::exists(school)) return school;
    if (const auto made = staged_school(school, {.harps = harps}); !made) return failure(made.error());
    return school;
}

std::shared_ptr<Source> fresh_school(const std::string& folder, const StagedSchool& school)
{
    static const tests::TemporaryFolder own;
    const std::string given = folder_of_made_schools();
    std::string master = (std::filesystem::path{given} / std::to_string(school.harps)).string();
    if (given.empty() || !std::filesystem::exists(master))
        master = made_school(own.path().string(), school.harps).value();
    std::filesystem::copy(master, folder, std::filesystem::copy_options::recursive);
    return staged_school(folder, school).value();
}

} // namespace harpkeep::dashboard
