// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/tolerance_setting.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace harpkeep::dashboard {

std::string tolerance_to_json(const ToleranceChoice& choice)
{
    return nlohmann::json{{"low_cents", choice.low_cents},
                          {"high_cents", choice.high_cents},
                          {"top_low_cents", choice.top_low_cents},
                          {"top_high_cents", choice.top_high_cents}}
        .dump();
}

Result<ToleranceChoice> tolerance_from_json(const std::string& text)
{
    const auto broken = failure(
        ErrorCode::corrupt, fmt::format("reading the tolerance of the harp: \"{}\" holds no limits in cents; "
                                        "set it anew on the page of settings",
                                        text));
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_object()) return broken;
    ToleranceChoice choice;
    for (const auto& [name, target] :
         {std::pair{"low_cents", &choice.low_cents}, std::pair{"high_cents", &choice.high_cents},
          std::pair{"top_low_cents", &choice.top_low_cents},
          std::pair{"top_high_cents", &choice.top_high_cents}}) {
        const auto found = json.find(name);
        if (found == json.end() || !found->is_number()) return broken;
        *target = found->get<double>();
    }
    if (choice.low_cents >= choice.high_cents || choice.top_low_cents >= choice.top_high_cents) return broken;
    return choice;
}

ToleranceSettings settings_of(const ToleranceChoice& choice)
{
    ToleranceSettings settings;
    settings.standard = {choice.low_cents, choice.high_cents};
    for (const int octave : {0, 1})
        settings.by_harp_octave[octave] = {choice.top_low_cents, choice.top_high_cents};
    return settings;
}

} // namespace harpkeep::dashboard
