// SPDX-License-Identifier: MIT
#include "records/visit_record.hpp"

#include "records/name_key.hpp"

#include <fmt/format.h>

namespace harpkeep {

namespace {

/// Where the words in front of a colon point; nothing when they name no part of a harp.
struct Where {
    std::optional<StringPlace> place;
    std::optional<Letter> pedal;
};

std::optional<Where> where_from(std::string_view words)
{
    if (words == "harp") return Where{};
    if (const auto place = place_from_harp_name(words)) return Where{place, std::nullopt};
    if (words.starts_with("pedal ") && words.size() == 7)
        if (const auto letter = letter_from_name(words.back())) return Where{std::nullopt, letter};
    return std::nullopt;
}

} // namespace

std::string visit_work_text(const VisitWork& work)
{
    std::string where = "harp";
    if (work.place) where = harp_name(*work.place);
    if (work.pedal) where = fmt::format("pedal {}", letter_name(*work.pedal));
    if (work.parts.empty()) return fmt::format("{}: {}", where, work.work);
    return fmt::format("{}: {} [{}]", where, work.work, work.parts);
}

VisitWork visit_work_from_text(std::string_view text)
{
    VisitWork work;
    const auto colon = text.find(':');
    if (colon != std::string_view::npos)
        if (const auto where = where_from(trimmed(text.substr(0, colon)))) {
            work.place = where->place;
            work.pedal = where->pedal;
            text.remove_prefix(colon + 1);
        }
    const std::string words = trimmed(text);
    const auto bracket = words.rfind('[');
    if (words.ends_with(']') && bracket != std::string::npos) {
        work.work = trimmed(words.substr(0, bracket));
        work.parts = words.substr(bracket + 1, words.size() - bracket - 2);
    } else {
        work.work = words;
    }
    return work;
}

} // namespace harpkeep
