// SPDX-License-Identifier: MIT
#include "live/check_notice.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>

#include <array>

namespace harpkeep {

namespace {

/// "the C pedal", or "the lever of 4C".
std::string mover_of(const CheckTarget& target, HarpKind kind)
{
    if (kind == HarpKind::lever) return fmt::format("the lever of {}", harp_name(target.place));
    return fmt::format("the {} pedal", letter_name(target.place.letter));
}

std::string wrong_position_text(const CheckNotice& notice, HarpKind kind)
{
    const std::string asked = notice.alternative ? fmt::format(" Put it to {} and pluck again.",
                                                               position_name(notice.alternative->position))
                                                 : " Pluck it again when it is right.";
    const std::string heard{position_name(notice.target->position)};
    const std::string mover = mover_of(*notice.target, kind);
    if (notice.kind == NoticeKind::pedal_wrong)
        return fmt::format("{} stands in {}: several of its strings say so.{}", mover, heard, asked);
    return fmt::format("{} sounds as {}: look at {}.{}", harp_name(notice.target->place), heard, mover,
                       asked);
}

std::string ambiguous_text(const CheckNotice& notice, HarpKind kind)
{
    const CheckTarget& one = *notice.target;
    const CheckTarget& other = *notice.alternative;
    const std::string question =
        fmt::format("{} or {}? The sound alone does not tell.", target_text(one), target_text(other));
    if (one.place.letter == other.place.letter && one.position == other.position) // octaves apart
        return question + " Pluck it again, in order.";
    return fmt::format("{} Look at {}, then pluck in order.", question, mover_of(other, kind));
}

std::string counted(int count, std::string_view one, std::string_view many)
{
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string text_about_target(const CheckNotice& notice, HarpKind kind)
{
    const std::string name = target_text(*notice.target);
    switch (notice.kind) {
    case NoticeKind::settled:
        return fmt::format("{} is good: go on.", name);
    case NoticeKind::accepted:
        return fmt::format("{} kept.", name);
    case NoticeKind::accepted_doubtful:
        return fmt::format("{} kept with a doubt after several tries. {}", name,
                           notice.doubt ? doubt_advice(*notice.doubt) : "");
    case NoticeKind::repeated:
        return fmt::format("{} plucked twice: both readings count.", name);
    case NoticeKind::replaced:
        return fmt::format("{} plucked again: the new reading counts.", name);
    case NoticeKind::ask_again:
        return fmt::format("{} once more, please. {}", name, doubt_advice(*notice.doubt));
    case NoticeKind::too_uncertain:
        return fmt::format("{} once more, please, and let it ring longer.", name);
    case NoticeKind::not_asked:
        return fmt::format("{} is not asked for here.", name);
    case NoticeKind::skipped:
        return notice.count == 1
                   ? fmt::format("{} was passed over: pluck it at any time in this part.", name)
                   : fmt::format("{} were passed over, the first {}: pluck them at any time in this part.",
                                 counted(notice.count, "string", "strings"), name);
    case NoticeKind::wrong_position:
    case NoticeKind::pedal_wrong:
        return wrong_position_text(notice, kind);
    case NoticeKind::ambiguous:
        return ambiguous_text(notice, kind);
    default:
        return "";
    }
}

} // namespace

std::string_view notice_name(NoticeKind kind)
{
    constexpr std::array<std::string_view, 18> names{
        "settled",       "accepted",       "accepted-doubtful", "repeated",    "replaced",       "ask-again",
        "too-uncertain", "wrong-position", "pedal-wrong",       "old-setting", "ambiguous",      "not-asked",
        "unplaced",      "ignored",        "skipped",           "new-setting", "left-for-later", "complete"};
    return names[static_cast<std::size_t>(kind)];
}

std::string target_text(const CheckTarget& target)
{
    return fmt::format("{} {}", harp_name(target.place), position_name(target.position));
}

std::string notice_text(const CheckNotice& notice, HarpKind kind)
{
    switch (notice.kind) {
    case NoticeKind::old_setting:
        return "Several strings still sound as in the part before: make the new setting first.";
    case NoticeKind::unplaced:
        return "That fits no string of this harp within 70 cents.";
    case NoticeKind::ignored:
        return fmt::format("Not a string ({}).", notice.reason);
    case NoticeKind::new_setting:
        return "A new part begins: make the setting shown.";
    case NoticeKind::left_for_later:
        return fmt::format("{} left for the end.", counted(notice.count, "string is", "strings are"));
    case NoticeKind::complete:
        return "All is sounded. Thank you.";
    default:
        HARPKEEP_EXPECTS(notice.target);
        return text_about_target(notice, kind);
    }
}

} // namespace harpkeep
