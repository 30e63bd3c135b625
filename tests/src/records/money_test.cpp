// SPDX-License-Identifier: MIT
#include "records/money.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("money: is read in either order and written with the decimals of its currency", "[records]")
{
    CHECK(money_from_text("12.50 EUR") == Money{1250, "EUR"});
    CHECK(money_from_text("EUR 12.5") == Money{1250, "EUR"});
    CHECK(money_from_text("12 EUR") == Money{1200, "EUR"});
    CHECK(money_from_text("-3.05 GBP") == Money{-305, "GBP"});
    CHECK(money_text({1250, "EUR"}) == "12.50 EUR");
    CHECK(money_text({-305, "GBP"}) == "-3.05 GBP");
    CHECK(money_text({1500, "JPY"}) == "1500 JPY");
    CHECK(money_text({1500, "KWD"}) == "1.500 KWD");
}

TEST_CASE("money: text round trips", "[records][property]")
{
    for (const std::int64_t minor : {0LL, 1LL, -1LL, 99LL, 100LL, 123456789LL})
        for (const char* currency : {"EUR", "JPY", "TND"}) {
            const Money money{minor, currency};
            CHECK(money_from_text(money_text(money)) == money);
        }
}

TEST_CASE("money: what is no amount is not read", "[records]")
{
    for (const char* wrong : {"", "12", "EUR", "12.505 EUR", "1.5 JPY", "12.50 eur", "12,50 EUR", "12. EUR",
                              "- EUR", "1e3 EUR", "1234567890123456 EUR"})
        CHECK_FALSE(money_from_text(wrong));
}
