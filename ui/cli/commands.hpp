// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

namespace harpkeep::cli {

// Every command, in the order of the help text.
void add_listen(CLI::App& app, Common& common, Work& work);

} // namespace harpkeep::cli
