// SPDX-License-Identifier: MIT
#include "records/wanted_note.hpp"

#include <algorithm>

namespace harpkeep {

std::optional<std::string> wanted_part(const Note& note)
{
    const std::string_view mark =
        wanted_prefix.substr(0, wanted_prefix.size() - 1); // a space need not follow
    const auto lowered = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    if (note.words.size() < mark.size() || !std::equal(mark.begin(), mark.end(), note.words.begin(),
                                                       [&](char a, char b) { return a == lowered(b); }))
        return std::nullopt;
    const auto begin = note.words.find_first_not_of(' ', mark.size());
    if (begin == std::string::npos) return std::nullopt;
    return note.words.substr(begin);
}

std::string wanted_words(std::string_view part)
{
    return std::string{wanted_prefix} + std::string{part};
}

} // namespace harpkeep
