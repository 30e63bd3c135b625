// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

namespace harpkeep::cli {

// Every command, in the order of the help text.

} // namespace harpkeep::cli
