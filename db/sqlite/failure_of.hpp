// SPDX-License-Identifier: MIT
#pragma once

#include "base/error.hpp"

#include <string>

namespace SQLite {
class Exception;
}

namespace harpkeep::db {

/// What an SQLite error means for the user of the ledger at `path`, and what to do about it.
[[nodiscard]] Error failure_of(const SQLite::Exception& exception, const std::string& path);

/// Whether it failed only because another program was writing.
[[nodiscard]] bool is_busy(const Error& error);

} // namespace harpkeep::db
