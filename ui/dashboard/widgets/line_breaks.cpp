// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/line_breaks.hpp"

#include <imgui.h>

namespace harpkeep::dashboard {

std::string broken_at_spaces(std::string_view text, float width)
{
    const auto wide = [](std::string_view part) {
        return ImGui::CalcTextSize(part.data(), part.data() + part.size()).x;
    };
    std::string out{text};
    std::size_t line = 0; // where the current line begins
    for (auto space = text.find_first_of(" \n"); space != std::string_view::npos;
         space = text.find_first_of(" \n", space + 1)) {
        if (text[space] == '\n') {
            line = space + 1;
            continue;
        }
        const auto next = text.find_first_of(" \n", space + 1);
        if (wide(text.substr(line, next == std::string_view::npos ? next : next - line)) <= width) continue;
        out[space] = '\n';
        line = space + 1;
    }
    return out;
}

} // namespace harpkeep::dashboard
