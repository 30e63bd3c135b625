// SPDX-License-Identifier: MIT
#include "ui/support/tolerance_setting.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("tolerance setting: JSON round trip", "[ui][property]")
{
    ToleranceSettings settings;
    settings.standard = {-2.5, 3.0};
    settings.by_harp_octave = {{0, {-1.0, 9.0}}, {6, {-8.0, 8.0}}};
    settings.whole_step_factor = 2.0;
    settings.watch_share = 0.4;
    settings.rule.confidence = 0.9;
    CHECK(ui::tolerance_from_json(ui::tolerance_json(settings)).value() == settings);
    CHECK(ui::tolerance_from_json("{}").value().is_project_default());
}

TEST_CASE("tolerance setting: what it cannot read it does not guess", "[ui]")
{
    for (const char* wrong : {"", "5", "[]", R"({"standard_cents": 5})", R"({"standard_cents": [2, 8]})",
                              R"({"standard_cents": [-5, 5, 5]})", R"({"octaves_cents": {"ten": [-1, 1]}})",
                              R"({"octaves_cents": {"1": "wide"}})", R"({"confidence": 1.5})",
                              R"({"confidence": "high"})", R"({"watch_share": 0})", R"({"low_cents": -5})"}) {
        CAPTURE(wrong);
        CHECK_FALSE(ui::tolerance_from_json(wrong));
    }
}
