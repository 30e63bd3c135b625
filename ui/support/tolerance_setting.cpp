// SPDX-License-Identifier: MIT
#include "ui/support/tolerance_setting.hpp"

#include "db/records/settings.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <charconv>

namespace harpkeep::ui {

namespace {

using Json = nlohmann::ordered_json;

Json band_json(const ToleranceBand& band)
{
    return Json::array({band.lower, band.upper});
}

std::optional<ToleranceBand> band_from(const Json& json)
{
    if (!json.is_array() || json.size() != 2 || !json[0].is_number() || !json[1].is_number())
        return std::nullopt;
    return ToleranceBand{json[0].get<double>(), json[1].get<double>()};
}

std::optional<int> octave_from(const std::string& text)
{
    int octave = 0;
    const auto end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, octave);
    if (read.ec != std::errc{} || read.ptr != end || octave < 0 || octave > 9) return std::nullopt;
    return octave;
}

Result<void> read_octaves(const Json& json, ToleranceSettings& settings)
{
    settings.by_harp_octave.clear();
    for (const auto& [name, value] : json.items()) {
        const auto octave = octave_from(name);
        const auto band = band_from(value);
        if (!octave || !band)
            return failure(
                ErrorCode::corrupt,
                fmt::format("octaves_cents holds \"{}\": {}; it wants \"0\": [-3, 8]", name, value.dump()));
        settings.by_harp_octave[*octave] = *band;
    }
    return {};
}

Result<void> read_number(const Json& json, const char* name, double& value)
{
    if (!json.contains(name)) return {};
    if (!json[name].is_number())
        return failure(ErrorCode::corrupt, fmt::format("{} is no number but {}", name, json[name].dump()));
    value = json[name].get<double>();
    return {};
}

/// A member that this version does not know would be a wish left out in silence.
std::optional<std::string> unknown_member(const Json& json)
{
    for (const auto& [name, value] : json.items())
        if (name != "standard_cents" && name != "octaves_cents" && name != "whole_step_factor" &&
            name != "watch_share" && name != "confidence")
            return name;
    return std::nullopt;
}

bool holds_zero(const ToleranceBand& band)
{
    return band.lower < 0.0 && band.upper > 0.0 && band.lower >= -100.0 && band.upper <= 100.0;
}

} // namespace

std::string tolerance_json(const ToleranceSettings& settings)
{
    Json octaves = Json::object();
    for (const auto& [octave, band] : settings.by_harp_octave)
        octaves[std::to_string(octave)] = band_json(band);
    return Json{{"standard_cents", band_json(settings.standard)},
                {"octaves_cents", octaves},
                {"whole_step_factor", settings.whole_step_factor},
                {"watch_share", settings.watch_share},
                {"confidence", settings.rule.confidence}}
        .dump();
}

Result<ToleranceSettings> tolerance_from_json(std::string_view text)
{
    const Json json = Json::parse(text, nullptr, false);
    if (!json.is_object())
        return failure(ErrorCode::corrupt, fmt::format("the tolerance \"{}\" is no JSON object", text));
    if (const auto unknown = unknown_member(json))
        return failure(ErrorCode::corrupt,
                       fmt::format("the tolerance holds \"{}\", which is not known here", *unknown));
    ToleranceSettings settings;
    if (json.contains("standard_cents")) {
        const auto band = band_from(json["standard_cents"]);
        if (!band)
            return failure(ErrorCode::corrupt, fmt::format("standard_cents is {}; it wants [-5, 5]",
                                                           json["standard_cents"].dump()));
        settings.standard = *band;
    }
    if (json.contains("octaves_cents")) {
        const auto read = read_octaves(json["octaves_cents"], settings);
        if (!read) return failure(read.error());
    }
    for (const auto& [name, member] : {std::pair{"whole_step_factor", &settings.whole_step_factor},
                                       std::pair{"watch_share", &settings.watch_share},
                                       std::pair{"confidence", &settings.rule.confidence}}) {
        const auto read = read_number(json, name, *member);
        if (!read) return failure(read.error());
    }
    if (const auto problem = problem_with(settings)) return failure(ErrorCode::corrupt, *problem);
    return settings;
}

std::optional<std::string> problem_with(const ToleranceSettings& settings)
{
    if (!holds_zero(settings.standard))
        return "a tolerance must reach from below zero to above it, at most 100 cents either way, as -5 to 5";
    for (const auto& [octave, band] : settings.by_harp_octave)
        if (!holds_zero(band))
            return fmt::format(
                "the tolerance of octave {} must reach from below zero to above it, at most 100 "
                "cents either way, as -3 to 8",
                octave);
    if (!(settings.whole_step_factor > 0.0 && settings.whole_step_factor <= 10.0))
        return "flat to sharp may be off by more than 0 and at most 10 times a step's tolerance";
    if (!(settings.watch_share > 0.0 && settings.watch_share <= 1.0))
        return "a step is watched from a share of its tolerance between 0 and 1 on";
    if (!(settings.rule.confidence >= 0.5 && settings.rule.confidence < 1.0))
        return "the confidence of a decision lies from 0.5 to below 1";
    return std::nullopt;
}

Result<ToleranceSettings> tolerances_of(const db::Ledger& ledger, const std::optional<Uuid>& harp_id)
{
    const auto stored = db::setting(ledger, tolerance_setting_name, harp_id);
    if (!stored) return failure(stored.error());
    if (!*stored) return ToleranceSettings{};
    auto settings = tolerance_from_json(**stored);
    if (!settings) return failure(settings.error().within("reading the tolerance that the ledger keeps"));
    return settings;
}

Result<void> keep_tolerances(db::Ledger& ledger, const db::Author& author, const std::optional<Uuid>& harp_id,
                             const ToleranceSettings& settings)
{
    if (const auto problem = problem_with(settings)) return failure(ErrorCode::invalid_argument, *problem);
    return db::change_setting(ledger, author, tolerance_setting_name, harp_id, tolerance_json(settings));
}

} // namespace harpkeep::ui
