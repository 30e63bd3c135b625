// SPDX-License-Identifier: MIT
#include "exchange/base64.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace harpkeep;

// RFC 4648, section 10, test vectors.
TEST_CASE("base64: the test vectors of RFC 4648", "[exchange][reference]")
{
    const std::pair<std::string, std::string> vectors[]{{"", ""},
                                                        {"f", "Zg=="},
                                                        {"fo", "Zm8="},
                                                        {"foo", "Zm9v"},
                                                        {"foob", "Zm9vYg=="},
                                                        {"fooba", "Zm9vYmE="},
                                                        {"foobar", "Zm9vYmFy"}};
    for (const auto& [plain, encoded] : vectors) {
        const std::vector<std::uint8_t> bytes{plain.begin(), plain.end()};
        CHECK(base64(bytes) == encoded);
        CHECK(bytes_from_base64(encoded) == bytes);
    }
}

TEST_CASE("base64: any bytes come back", "[exchange][property]")
{
    std::mt19937 random{4648};
    for (int round = 0; round < 300; ++round) {
        std::vector<std::uint8_t> bytes(random() % 50);
        for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random());
        REQUIRE(bytes_from_base64(base64(bytes)) == bytes);
    }
}

TEST_CASE("base64: what is none is refused", "[exchange]")
{
    for (const char* text :
         {"Zg", "Zg=", "Zg==Zg==", "Zh==", "Zm9=", "A===", "====", "Zm 9v", "Zm9v\n", "Z-9v"})
        CHECK_FALSE(bytes_from_base64(text));
}
