// SPDX-License-Identifier: MIT
#include "fresh_school.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>

/// usage: make_schools FOLDER HARPS...
/// Makes the invented school anew for each number of harps, for the tests of the window to copy.
int main(int argc, char** argv)
{
    if (argc < 3) return 2;
    std::filesystem::remove_all(argv[1]); // of an older program
    std::filesystem::create_directories(argv[1]);
    for (int i = 2; i < argc; ++i)
        if (const auto made = harpkeep::dashboard::made_school(argv[1], std::atoi(argv[i])); !made) {
            fmt::print(stderr, "{}\n", made.error().message);
            return 1;
        }
    return 0;
}
