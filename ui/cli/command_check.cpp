// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"
#include "db/records/harps.hpp"
#include "intake/recording.hpp"
#include "ui/cli/check_live.hpp"
#include "ui/cli/check_output.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/progress_line.hpp"
#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>

namespace harpkeep::cli {

namespace {

/// What `check` was told.
struct CheckWords {
    std::string harp;
    std::vector<std::string> files;
    std::vector<std::string> passes[all_positions.size()]; ///< files of one position, by Position
    double a4_hz = 440.0;
    bool no_store = false;
    bool live = false;
    LiveCheckWords live_words;
};

Result<std::vector<CheckRecording>> recordings_of(const CheckWords& words, HarpKind kind)
{
    std::vector<CheckRecording> recordings;
    for (const auto& file : words.files) recordings.push_back({file, std::nullopt});
    for (const Position position : all_positions)
        for (const auto& file : words.passes[static_cast<std::size_t>(position)]) {
            const bool of_pedals = position <= Position::sharp;
            if (of_pedals != (kind == HarpKind::pedal))
                return failure(ErrorCode::invalid_argument,
                               fmt::format("a {} harp has no position {}; use {}", kind_name(kind),
                                           position_name(position),
                                           kind == HarpKind::pedal ? "--flat, --natural and --sharp"
                                                                   : "--open and --engaged"));
            recordings.push_back({file, position});
        }
    if (recordings.empty())
        return failure(
            ErrorCode::invalid_argument,
            "no recording was named; write harpkeep check FILE... --harp NAME, or name a file for each pass");
    return recordings;
}

CheckHeader header_of(const HarpRecord& harp, const std::vector<HeardRecording>& recordings)
{
    CheckHeader header;
    header.harp_id = harp.id;
    header.taken = ui::now();
    for (const auto& recording : recordings)
        header.recordings.push_back(
            {recording.path, sha256_from_hex(recording.sha256).value(), Seconds{recording.duration_s}});
    return header;
}

/// Why nothing can be kept, with what is the matter with the recordings.
Error nothing_found(const std::string& harp, const CheckWords& words, const HeardCheck& heard)
{
    std::string text =
        fmt::format("no string of {} was found in {}; see that it is the right harp and A4 ({:.1f} "
                    "Hz), and that the strings ring alone",
                    harp, heard.recordings.front().path, words.a4_hz);
    for (const auto& recording : heard.recordings)
        for (const auto& remark : recording.remarks) text += fmt::format("\n{}: {}", recording.path, remark);
    return {ErrorCode::unusable_input, text};
}

Result<void> check(const Common& common, const CheckWords& words)
{
    if (words.live)
        return check_live(common, words.harp, Hertz{words.a4_hz}, words.no_store, words.live_words);
    auto ledger = open_ledger(common, words.no_store ? db::Access::read : db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto harp = db::harp_named(*ledger, words.harp);
    if (!harp) return failure(harp.error());
    const auto recordings = recordings_of(words, harp->details.layout.kind);
    if (!recordings) return failure(recordings.error());

    ProgressLine progress("listening");
    auto heard = hear_check(harp->details.layout, Hertz{words.a4_hz}, *recordings, progress.reporter());
    progress.clear();
    if (!heard) return failure(heard.error());
    if (heard->result.readings.empty()) return failure(nothing_found(harp->details.name, words, *heard));
    std::vector<std::string> files;
    for (const auto& recording : heard->recordings) {
        files.push_back(recording.path);
        for (const auto& remark : recording.remarks)
            heard->result.remarks.push_back(fmt::format("{}: {}", recording.path, remark));
    }
    if (!words.no_store)
        if (const auto id =
                db::store_check(*ledger, ui::author(), header_of(*harp, heard->recordings), heard->result);
            !id)
            return failure(id.error());
    if (common.json)
        print_json(json_of_check(harp->details.name, heard->result, files));
    else
        print_check(harp->details.name, harp->details.layout, heard->result, files);
    return {};
}

} // namespace

void add_command_check(CLI::App& app, Common& common, Work& work)
{
    auto words = std::make_shared<CheckWords>();
    auto* subcommand =
        app.add_subcommand("check", "measure every step of a harp from recordings and keep the check");
    subcommand->add_option("files", words->files, "recordings, in the order in which they were made");
    subcommand->add_option("--harp", words->harp, "name of the harp")->required();
    for (const Position position : all_positions)
        subcommand->add_option(fmt::format("--{}", position_name(position)),
                               words->passes[static_cast<std::size_t>(position)],
                               fmt::format("recording in which every string is {}", position_name(position)));
    subcommand->add_option("--a4", words->a4_hz, "pitch of A4 in Hz that the harp is tuned to")
        ->check(CLI::Range(380.0, 480.0))
        ->capture_default_str();
    subcommand->add_flag("--no-store", words->no_store, "only print; keep nothing in the ledger");
    subcommand->add_flag("--live", words->live, "listen to a microphone and guide through the harp");
    add_live_check_options(*subcommand, words->live_words);
    add_common_options(*subcommand, common);
    subcommand->callback(
        [words, &common, &work] { work = [words, &common] { return check(common, *words); }; });
}

} // namespace harpkeep::cli
