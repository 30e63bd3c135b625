// SPDX-License-Identifier: MIT
#include "base/sha256.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace harpkeep;

namespace {

std::vector<std::uint8_t> bytes_of(std::string_view text)
{
    return {text.begin(), text.end()};
}

} // namespace

// FIPS 180-4 example values for "abc" and the 448-bit message (NIST, "Example Algorithms"; from memory).
TEST_CASE("sha256: the examples of FIPS 180-4", "[base][reference]")
{
    CHECK(to_hex(sha256_of(bytes_of("abc"))) ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(to_hex(sha256_of(bytes_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"))) ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("sha256: pieces give the hash of the whole", "[base][property]")
{
    const auto all = bytes_of(std::string(1000, 'x'));
    Sha256 hasher;
    for (std::size_t at = 0; at < all.size(); at += 7)
        hasher.update(std::span{all}.subspan(at, std::min<std::size_t>(7, all.size() - at)));
    CHECK(hasher.finish() == sha256_of(all));
    CHECK(hasher.finish() == sha256_of({}));
}

TEST_CASE("sha256: hexadecimal round trips", "[base][property]")
{
    const auto hash = sha256_of(bytes_of("heron"));
    CHECK(sha256_from_hex(to_hex(hash)) == hash);
    CHECK_FALSE(sha256_from_hex(to_hex(hash).substr(1)));
    std::string wrong = to_hex(hash);
    wrong[0] = 'g';
    CHECK_FALSE(sha256_from_hex(wrong));
}
