// SPDX-License-Identifier: MIT
#include "records/uuid.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

// RFC 9562, appendix A.6: 2022-02-22T14:22:22-05:00.
TEST_CASE("uuid_version_7: gives the example of RFC 9562", "[records][reference]")
{
    const Uuid uuid = uuid_version_7(1645557742000, 0xCC3, 0x18C4DC0C0C07398F);
    CHECK(to_string(uuid) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    CHECK(utc_ms_of(uuid) == 1645557742000);
}

TEST_CASE("uuid: text round trips, and capitals are read", "[records][property]")
{
    const auto lower = uuid_from_string("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    REQUIRE(lower);
    CHECK(uuid_from_string("017F22E2-79B0-7CC3-98C4-DC0C0C07398F") == lower);
    CHECK(uuid_from_string(to_string(*lower)) == lower);
}

TEST_CASE("uuid: what is none is not read", "[records]")
{
    for (const char* wrong :
         {"", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0",
          "017f22e2_79b0-7cc3-98c4-dc0c0c07398f", "g17f22e2-79b0-7cc3-98c4-dc0c0c07398f"})
        CHECK_FALSE(uuid_from_string(wrong));
}

TEST_CASE("uuid_version_7: later times sort later, and so do higher counts in one millisecond",
          "[records][property]")
{
    CHECK(uuid_version_7(1000, 0xFFF, ~0ULL) < uuid_version_7(1001, 0, 0));
    CHECK(uuid_version_7(1000, 1, ~0ULL) < uuid_version_7(1000, 2, 0));
}
