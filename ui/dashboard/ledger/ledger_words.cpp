// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_words.hpp"

#include "ui/dashboard/text.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

namespace harpkeep::dashboard {

Date date_of(Day day)
{
    return date_from_days(static_cast<int>(day.time_since_epoch().count()));
}

std::string date_text(Date date)
{
    return date.is_full() ? iso_date(date) : fmt::format(text::put_on_about_format, iso_date(date));
}

State state_of(const StepVerdict& verdict)
{
    if (verdict.conformity == Conformity::out) return State::out;
    if (verdict.conformity == Conformity::not_proven) return State::unsure;
    return verdict.watch ? State::watch : State::fine;
}

ToleranceChoice choice_of(const ToleranceSettings& settings)
{
    const auto top = settings.by_harp_octave.find(1);
    const ToleranceBand band = top == settings.by_harp_octave.end() ? settings.standard : top->second;
    return {settings.standard.lower, settings.standard.upper, band.lower, band.upper};
}

ToleranceSettings with_choice(ToleranceSettings settings, const ToleranceChoice& choice)
{
    settings.standard = {choice.low_cents, choice.high_cents};
    for (const int octave : {0, 1})
        settings.by_harp_octave[octave] = {choice.top_low_cents, choice.top_high_cents};
    return settings;
}

std::string make_text(const StringMake& make)
{
    std::string out = make.material.empty() ? std::string{text::material_unknown} : make.material;
    if (make.diameter) out += " " + millimetres_text(*make.diameter);
    if (!make.wrap_material.empty()) out += ", " + fmt::format(text::wound_with_format, make.wrap_material);
    return out;
}

std::string description_of(const HarpDetails& harp)
{
    std::string out =
        fmt::format(text::harp_description_format,
                    text::harp_kinds[static_cast<std::size_t>(harp.layout.kind)], harp.layout.strings.size());
    if (harp.year_built) out += fmt::format(", {}", *harp.year_built);
    return out;
}

} // namespace harpkeep::dashboard
