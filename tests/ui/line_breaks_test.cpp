// SPDX-License-Identifier: MIT
#include "driver.hpp"
#include "ui/dashboard/widgets/line_breaks.hpp"

#include <catch2/catch.hpp>
#include <imgui.h>

#include <algorithm>

using namespace harpkeep::dashboard;

TEST_CASE("line breaks: stand at spaces only and keep every letter", "[ui][property]")
{
    const Driver driver{{.school = {.harps = 0}}};
    const std::string text =
        "worst 2A by +9.8 cents (95 %: +7.6 to +11.9) of its own,\napart from pedals and neck.";
    for (float width = 20.0F; width < 900.0F; width += 7.0F) {
        CAPTURE(width);
        std::string broken = broken_at_spaces(text, width);
        REQUIRE(broken.size() == text.size());
        for (std::size_t i = 0; i < text.size(); ++i)
            if (broken[i] != text[i]) CHECK((text[i] == ' ' && broken[i] == '\n'));
        for (std::size_t begin = 0; begin < broken.size();) {
            const auto end = std::min(broken.find('\n', begin), broken.size());
            const auto line = broken.substr(begin, end - begin);
            const bool one_word = line.find(' ') == std::string::npos;
            CHECK((one_word || ImGui::CalcTextSize(line.c_str()).x <= width));
            begin = end + 1;
        }
    }
}
