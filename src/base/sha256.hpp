// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace harpkeep {

using Sha256Hash = std::array<std::uint8_t, 32>;

/// Hash of bytes that come in pieces.
///
/// Reference  FIPS 180-4, by libcrypto; its examples are tests (tests/src/base/sha256_test.cpp)
class Sha256 {
  public:
    Sha256();
    Sha256(Sha256&&) noexcept;
    Sha256& operator=(Sha256&&) noexcept;
    ~Sha256();

    void update(std::span<const std::uint8_t> bytes);
    /// The hash of all bytes so far; begins anew.
    [[nodiscard]] Sha256Hash finish();

  private:
    struct Context;
    std::unique_ptr<Context> context_;
};

[[nodiscard]] Sha256Hash sha256_of(std::span<const std::uint8_t> bytes);

/// 64 lower-case hexadecimal digits.
[[nodiscard]] std::string to_hex(const Sha256Hash& hash);
[[nodiscard]] std::optional<Sha256Hash> sha256_from_hex(std::string_view text);

} // namespace harpkeep
