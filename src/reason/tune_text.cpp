// SPDX-License-Identifier: MIT
#include "reason/tune_text.hpp"

#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep {

namespace {

constexpr double two_sided_95 = 1.959963984540054; // normal quantile of 97.5 %

std::string size_words(const TuningFigure& figure)
{
    const double half = two_sided_95 * figure.uncertainty_cents;
    return half >= 0.05 ? fmt::format("{:.1f} ± {:.1f} cents", figure.cents, half)
                        : fmt::format("{:.1f} cents", figure.cents);
}

std::string note_words(StringPlace place, int alteration)
{
    return fmt::format("{} {}", harp_name(place), alteration_words(alteration));
}

} // namespace

std::string_view alteration_words(int alteration)
{
    return alteration < 0 ? "flat" : alteration > 0 ? "sharp" : "natural";
}

std::string tuning_line(const TunedString& string)
{
    std::string text =
        fmt::format("{}: {}, {} cents from equal temperament", note_words(string.place, string.alteration),
                    format_hertz(Hertz{string.target_hz}), format_signed(string.offset_cents, 1));
    if (string.by_hand) return text + ", tuned by hand to the note of the piece, as it has no discs.";
    if (string.used.empty()) return text + ", not used.";
    double after = 0.0;
    int unknown = 0;
    for (const auto& used : string.used) {
        if (used.after_cents) after = std::max(after, std::abs(*used.after_cents));
        unknown += !used.after_cents.has_value();
    }
    text += fmt::format("; then off by at most {:.1f} cents in what is used", after);
    if (unknown > 0) text += fmt::format(", {} not measured", how_many(unknown, "position", "positions"));
    return text + ".";
}

std::vector<std::string> tune_around_sentences(const TuneAroundResult& result)
{
    std::vector<std::string> sentences;
    if (!result.worst_before) {
        sentences.emplace_back(
            "None of the positions that the piece uses was measured: check those strings first.");
    } else {
        sentences.push_back(
            fmt::format("Tuned as usual, the greatest error is {} at {} and the typical one {}.",
                        size_words(result.greatest_before), harp_name(*result.worst_before),
                        size_words(result.typical_before)));
        sentences.push_back(fmt::format("Tuned as listed, the greatest is {} at {} and the typical one {} "
                                        "(± is the 95 % interval of measuring).",
                                        size_words(result.greatest_after), harp_name(*result.worst_after),
                                        size_words(result.typical_after)));
    }
    std::vector<std::string> impossible;
    for (const auto& note : result.impossible) impossible.push_back(note_words(note.place, note.alteration));
    if (!impossible.empty())
        sentences.push_back(fmt::format("Not possible on this harp without tuning by hand in between: {}.",
                                        listed(impossible)));
    const int known = result.used_positions - result.unknown_positions;
    if (result.worst_before)
        sentences.push_back(fmt::format("This rests on {} of {} that the piece uses{}.", known,
                                        how_many(result.used_positions, "position", "positions"),
                                        result.unknown_positions > 0
                                            ? "; the others were not measured and are "
                                              "left out of the figures"
                                            : ""));
    return sentences;
}

std::string enharmonic_sentence(const EnharmonicPair& pair)
{
    const auto lower = fmt::format("{} {}", harp_name(pair.lower_place), position_name(pair.lower_position));
    const auto upper = fmt::format("{} {}", harp_name(pair.upper_place), position_name(pair.upper_position));
    return fmt::format("{} and {}: the second is {} from the first, {:.1f} beats a second at {}, from {}.",
                       lower, upper, cents_words(Measured{pair.cents, pair.uncertainty_cents}),
                       pair.beats_per_second, format_hertz(Hertz{pair.frequency_hz}),
                       how_many(pair.rests_on, "reading", "readings"));
}

std::string setting_sentence(const SettingUse& use)
{
    const auto pedals = pedal_names(use.setting);
    std::string text = use.name.empty() ? pedals : fmt::format("{} ({})", use.name, pedals);
    if (use.impossible > 0)
        return text + fmt::format(": {} cannot be set so.", how_many(use.impossible, "string", "strings"));
    text += fmt::format(": {}", conformity_words(use.conformity));
    if (use.worst.worst)
        text += fmt::format(", greatest error {} at {} {}",
                            cents_words(Measured{use.worst.greatest_cents, use.worst.uncertainty_cents}),
                            harp_name(*use.worst.worst), alteration_words(use.worst.alteration));
    if (use.not_measured > 0)
        text += fmt::format(", {} not measured", how_many(use.not_measured, "note", "notes"));
    return text + ".";
}

std::vector<std::string> usable_sentences(const UsableSettings& usable)
{
    std::vector<std::string> sentences{
        fmt::format("Of {} settings {} are within tolerance on every string that "
                    "was measured, {} are not proven, {} are out; the open strings "
                    "being in tune, and nothing tuned around.",
                    usable.settings, usable.usable, usable.not_proven, usable.not_usable)};
    auto basis =
        fmt::format("This rests on {} of {} naturals and sharps.", usable.notes_measured, usable.notes);
    if (usable.with_gaps > 0)
        basis += fmt::format(" {} that {} not measured.",
                             how_many(usable.with_gaps, "setting uses notes", "settings use notes"),
                             usable.notes - usable.notes_measured == 1 ? "was" : "were");
    sentences.push_back(basis);
    for (const auto& letter : usable.letters)
        for (const auto& use : letter)
            if (use.conformity == Conformity::out && use.worst)
                sentences.push_back(fmt::format(
                    "{} {} is out at {} with {}.", letter_name(use.letter), alteration_words(use.alteration),
                    harp_name(*use.worst), cents_words(Measured{use.greatest_cents, use.uncertainty_cents})));
    return sentences;
}

} // namespace harpkeep
