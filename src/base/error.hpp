// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <utility>

namespace harpkeep {

/// What kind of thing failed; the command line maps each to its exit code.
enum class ErrorCode {
    invalid_argument, ///< the user asked for something that cannot be: say what to write instead
    not_found,        ///< a named harp, place, file or device does not exist
    unusable_input,   ///< a file or row is there but holds nothing that can be used
    refused,          ///< a rule of the ledger forbids it: say which and how to go on
    unavailable,      ///< the system said no: permission, disk full, device busy or gone
    corrupt,          ///< stored data break their own rules
};

/// The world failed: what was tried, on what, what the system said, and what the user can do.
struct Error {
    ErrorCode code;
    std::string message;

    /// The same failure with the caller's context in front: "reading a.flac: no audio stream".
    [[nodiscard]] Error within(const std::string& context) const { return {code, context + ": " + message}; }
};

} // namespace harpkeep
