// SPDX-License-Identifier: MIT
#include "reason/verdict_text.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/tolerance_setting.hpp"

#include <charconv>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct ToleranceWords {
    std::string harp;
    bool for_all = false;
    std::string band;
    std::vector<std::string> octaves;
    std::optional<double> whole_factor;
    std::optional<double> watch;
    std::optional<double> confidence;
    bool reset = false;

    [[nodiscard]] bool changes() const
    {
        return !band.empty() || !octaves.empty() || whole_factor || watch || confidence || reset;
    }
};

std::optional<double> number_from(std::string_view text)
{
    double number = 0.0;
    if (text.starts_with('+')) text.remove_prefix(1);
    const auto end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return number;
}

/// "-5:5": from and to.
Result<ToleranceBand> band_from(std::string_view text)
{
    const auto colon = text.find(':');
    if (colon != std::string_view::npos) {
        const auto lower = number_from(text.substr(0, colon));
        const auto upper = number_from(text.substr(colon + 1));
        if (lower && upper) return ToleranceBand{*lower, *upper};
    }
    return failure(ErrorCode::invalid_argument,
                   fmt::format("\"{}\" is no tolerance; write it from below to above, as -5:5", text));
}

Result<void> apply(const ToleranceWords& words, ToleranceSettings& settings)
{
    if (words.reset) settings = {};
    if (!words.band.empty()) {
        const auto band = band_from(words.band);
        if (!band) return failure(band.error());
        settings.standard = *band;
    }
    for (const auto& text : words.octaves) {
        const auto equals = text.find('=');
        const auto octave = number_from(std::string_view(text).substr(0, equals));
        if (equals == std::string::npos || !octave || *octave != static_cast<int>(*octave) || *octave < 0 ||
            *octave > 9)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" names no harp octave; write it as 1=-3:8", text));
        const auto band = band_from(std::string_view(text).substr(equals + 1));
        if (!band) return failure(band.error());
        settings.by_harp_octave[static_cast<int>(*octave)] = *band;
    }
    if (words.whole_factor) settings.whole_step_factor = *words.whole_factor;
    if (words.watch) settings.watch_share = *words.watch;
    if (words.confidence) settings.rule.confidence = *words.confidence;
    return {};
}

Result<void> tolerance(const Common& common, const ToleranceWords& words)
{
    auto ledger = open_ledger(common, words.changes() ? db::Access::write : db::Access::read);
    if (!ledger) return failure(ledger.error());
    std::optional<HarpRecord> harp;
    if (!words.for_all) {
        auto chosen = chosen_harp(*ledger, words.harp);
        if (!chosen) return failure(chosen.error());
        harp = std::move(*chosen);
    }
    const auto harp_id = harp ? std::optional(harp->id) : std::nullopt;
    auto settings = ui::tolerances_of(*ledger, harp_id);
    if (!settings) return failure(settings.error());
    if (words.changes()) {
        const auto applied = apply(words, *settings);
        if (!applied) return failure(applied.error());
        const auto kept = ui::keep_tolerances(*ledger, ui::author(), harp_id, *settings);
        if (!kept) return failure(kept.error());
    }
    const auto name = harp ? harp->details.name : std::string("all harps");
    if (common.json) {
        Json document{{"harp", harp ? Json(name) : Json(nullptr)}};
        document.update(json_of(*settings));
        print_json(document);
        return {};
    }
    print_line(name);
    print_line(tolerance_sentence(*settings));
    print_line(whole_step_sentence(*settings));
    return {};
}

} // namespace

void add_command_tolerance(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<ToleranceWords>(app, common, work, "tolerance",
                                               "what the steps of a harp are judged against", tolerance);
    auto& words = *verb.words;
    add_harp_option(*verb.app, words.harp);
    verb.app->add_flag("--for-all", words.for_all, "of all harps that have none of their own");
    verb.app->add_option("--band", words.band, "cents from below to above, as -5:5");
    verb.app->add_option("--octave", words.octaves,
                         "another band for one harp octave, as 1=-3:8; may be repeated");
    verb.app->add_option("--whole-factor", words.whole_factor, "how much more flat to sharp may be off");
    verb.app->add_option("--watch", words.watch, "share of the tolerance from which a step is watched");
    verb.app->add_option("--confidence", words.confidence, "how sure a decision must be, as 0.95");
    verb.app->add_flag("--reset", words.reset, "back to this program's own choice");
}

} // namespace harpkeep::cli
