// SPDX-License-Identifier: MIT
#include "ui/dashboard/check_files.hpp"

namespace harpkeep::dashboard {

std::vector<Position> check_positions(HarpKind kind)
{
    return positions_of(kind, HarpString{});
}

std::string file_name(const std::string& path)
{
    return path.substr(path.rfind('/') + 1); // npos + 1 is 0
}

std::optional<Position> pass_from_name(const std::string& path, HarpKind kind)
{
    std::string name = file_name(path);
    for (char& c : name)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    std::optional<Position> found;
    for (const Position position : check_positions(kind)) {
        if (name.find(position_name(position)) == std::string::npos) continue;
        if (found) return std::nullopt;
        found = position;
    }
    return found;
}

} // namespace harpkeep::dashboard
