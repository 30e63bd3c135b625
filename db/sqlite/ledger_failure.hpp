// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <exception>
#include <type_traits>

namespace harpkeep::db {

/// Carries an Error up to the repository function that was called; lives inside db/ only, so that a
/// repository of twenty statements is not twenty tests of a return value. guarded() turns it into a Result.
class LedgerFailure : public std::exception {
  public:
    explicit LedgerFailure(Error error) : error_(std::move(error)) {}
    [[nodiscard]] const char* what() const noexcept override { return error_.message.c_str(); }
    [[nodiscard]] const Error& error() const noexcept { return error_; }

  private:
    Error error_;
};

[[noreturn]] inline void fail(ErrorCode code, std::string message)
{
    throw LedgerFailure{Error{code, std::move(message)}};
}

/// The value of a Result, or its failure thrown.
template <class T>
T value_or_fail(Result<T> result)
{
    if (!result) throw LedgerFailure{result.error()};
    if constexpr (!std::is_void_v<T>) return std::move(*result);
}

/// Runs `body`; a failure in it becomes the Result's error, with `what` was tried in front.
template <class Body>
[[nodiscard]] auto guarded(const std::string& what, Body&& body) -> Result<std::invoke_result_t<Body>>
{
    try {
        if constexpr (std::is_void_v<std::invoke_result_t<Body>>) {
            body();
            return {};
        } else {
            return body();
        }
    } catch (const LedgerFailure& caught) {
        return failure(caught.error().within(what));
    }
}

} // namespace harpkeep::db
