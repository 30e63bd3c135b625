// SPDX-License-Identifier: MIT
#include "audio/file_hash.hpp"

#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::tests;

// FIPS 180-4 test messages of NIST's example page ("abc", the 448-bit message, one million "a"), and the
// empty one.
TEST_CASE("sha256_of_file: gives the digests of the standard's examples", "[audio][reference]")
{
    const auto [bytes, digest] = GENERATE(
        std::tuple{std::string("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        std::tuple{std::string("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
                   "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
        std::tuple{std::string(1000000, 'a'),
                   "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
        std::tuple{std::string(), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"});
    const TemporaryFolder folder;
    write_bytes(folder / "message", bytes);
    CHECK(sha256_of_file(folder / "message").value() == digest);
}

TEST_CASE("sha256_of_file: says when there is no such file", "[audio]")
{
    const auto hash = sha256_of_file("/nowhere/a.flac");
    REQUIRE_FALSE(hash.has_value());
    CHECK(hash.error().code == ErrorCode::not_found);
    CHECK(sha256_of_file("/").error().code == ErrorCode::unavailable); // a folder opens but cannot be read
}
