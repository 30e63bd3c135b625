// SPDX-License-Identifier: MIT
#pragma once

#include "base/error.hpp"

#include <tl/expected.hpp>

namespace harpkeep {

/// A value, or why the world did not give one. One alias, so that std::expected can take its place.
template <class T>
using Result = tl::expected<T, Error>;

/// A failure, to be returned from a function that returns a Result.
[[nodiscard]] inline tl::unexpected<Error> failure(ErrorCode code, std::string message)
{
    return tl::unexpected<Error>(Error{code, std::move(message)});
}

/// Hands on a failure that came from below.
[[nodiscard]] inline tl::unexpected<Error> failure(Error error)
{
    return tl::unexpected<Error>(std::move(error));
}

} // namespace harpkeep
