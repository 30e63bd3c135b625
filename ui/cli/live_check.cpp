// SPDX-License-Identifier: MIT
#include "ui/cli/live_check.hpp"

#include "audio/file_hash.hpp"
#include "audio/sound_file.hpp"
#include "db/records/checks.hpp"
#include "db/records/open_checks.hpp"
#include "live/check_result.hpp"
#include "live/stream_listener.hpp"
#include "ui/cli/check_output.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/live_json.hpp"
#include "ui/cli/live_loop.hpp"
#include "ui/cli/live_recording.hpp"
#include "ui/cli/terminal/check_page.hpp"
#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

/// Stores what changed, before anything else happens: a reading was kept or taken back.
using StoreProgress = std::function<Result<void>(const GuidedCheckState& state)>;

/// A guided check as work of the live loop.
class CheckWork : public LiveWork {
  public:
    CheckWork(GuidedCheck& check, CheckPageFrame frame, bool json, const StoreProgress& store,
              LiveRecording& recording)
        : check_(check), frame_(std::move(frame)), json_(json), store_(store), recording_(recording)
    {
        if (json_) print_event(next_json(check_.view()));
    }

    Result<void> hear(const PluckEvent& event) override
    {
        const auto outcome = check_.handle(event);
        if (!outcome.kept.empty())
            if (auto stored = store_(check_.state()); !stored) return stored;
        if (json_) print(outcome, std::holds_alternative<PluckEstimated>(event));
        return {};
    }

    Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) override
    {
        return recording_.write(samples, first_frame);
    }

    void trouble(const std::string& text) override
    {
        frame_.trouble = text;
        if (json_) print_event({{"event", "microphone"}, {"trouble", text}});
    }

    Result<void> key(char32_t key) override
    {
        switch (key) {
        case U' ':
        case U'p':
            check_.pause(!check_.view().paused);
            break;
        case U'u':
            if (check_.take_back())
                if (auto stored = store_(check_.state()); !stored) return stored;
            break;
        case U'n': {
            const auto outcome = check_.leave_station();
            if (auto stored = store_(check_.state()); !stored) return stored;
            if (json_) print(outcome, false);
            break;
        }
        case U'q':
            stopped_ = true;
            break;
        default:
            return {};
        }
        if (json_) print_event(next_json(check_.view()));
        return {};
    }

    void draw(Canvas& page) override { draw_check(page, check_.view(), check_.layout(), frame_); }
    [[nodiscard]] bool finished() const override { return stopped_ || check_.complete(); }

  private:
    void print(const GuidedCheckOutcome& outcome, bool still_sounding) const
    {
        const auto view = check_.view();
        if (still_sounding && view.heard) print_event(heard_json(*view.heard));
        for (const KeptReading& kept : outcome.kept) print_event(kept_json(kept));
        for (const CheckNotice& notice : outcome.notices)
            print_event(notice_json(notice, check_.layout().kind));
        if (!outcome.notices.empty()) print_event(next_json(view));
    }

    GuidedCheck& check_;
    CheckPageFrame frame_;
    bool json_;
    const StoreProgress& store_;
    LiveRecording& recording_;
    bool stopped_ = false;
};

/// A guided check of a harp of the ledger from its beginning, or from where it was stopped, to its end.
class LiveCheck {
  public:
    LiveCheck(const Common& common, db::Ledger& ledger, const HarpRecord& harp, bool no_store,
              const LiveCheckWords& words)
        : common_(common), ledger_(ledger), harp_(harp), no_store_(no_store), words_(words)
    {
    }

    Result<void> begin_or_go_on(Hertz a4)
    {
        if (!no_store_) {
            auto open = db::open_checks_of(ledger_, harp_.id);
            if (!open) return failure(open.error());
            if (!open->empty() && !words_.anew) return go_on(std::move(open->front()));
            for (const db::OpenCheck& stopped : *open)
                if (auto dropped = db::drop_open_check(ledger_, stopped.id); !dropped) return dropped;
        }
        if (words_.finish)
            return failure(ErrorCode::not_found,
                           fmt::format("no live check of {} was stopped; there is nothing to finish",
                                       harp_.details.name));
        const auto request = plan_request_from(words_);
        if (!request) return failure(request.error());
        if (!no_store_) {
            const auto id = db::begin_open_check(ledger_, ui::author(), harp_.id, a4, *request);
            if (!id) return failure(id.error());
            id_ = *id;
        }
        begun_ = ui::now();
        return set_check(GuidedCheck::begin(harp_.details.layout, *request, {.a4 = a4}));
    }

    Result<void> run()
    {
        auto open = open_microphone(words_.device);
        if (!open) return failure(open.error());
        warning_ = open->warning;
        auto recording = LiveRecording::open(words_.record_path, open->microphone->rate());
        if (!recording) return failure(recording.error());
        if (auto counted = count_session(); !counted) return counted;
        if (common_.json)
            print_event({{"event", "listening"},
                        {"device", device_json(open->microphone->device())},
                        {"warning", open->warning}});
        StreamListener listener{open->microphone->rate()};
        const StoreProgress store = [&](const GuidedCheckState& state) -> Result<void> {
            return id_ ? db::store_progress(ledger_, *id_, state) : Result<void>{};
        };
        CheckWork work{*check_,
                       {.harp_name = harp_.details.name, .trouble = open->warning},
                       common_.json,
                       store,
                       *recording};
        auto ran = run_live(*open->microphone, listener, work, common_.json);
        if (auto finished = recording->finish(); ran && !finished) return finished;
        return ran;
    }

    [[nodiscard]] bool complete() const { return check_->complete(); }

    /// Makes a check of the ledger of it and prints it.
    Result<void> store()
    {
        CheckResult result = check_result(*check_);
        if (!warning_.empty()) result.remarks.push_back(warning_);
        if (id_) {
            const auto header = header_of_sessions();
            if (!header) return failure(header.error());
            if (auto stored = db::store_check(ledger_, ui::author(), *header, result); !stored)
                return failure(stored.error());
            if (auto dropped = db::drop_open_check(ledger_, *id_); !dropped) return dropped;
        }
        if (common_.json) {
            auto line = json_of_check(harp_.details.name, result, recordings_);
            line["event"] = "check";
            fmt::print("{}\n", line.dump());
        } else {
            print_check(harp_.details.name, harp_.details.layout, result, recordings_);
        }
        return {};
    }

    void say_how_to_go_on() const
    {
        if (common_.json || no_store_) return;
        const auto view = check_->view();
        fmt::print("{} of {} are kept. Go on at any time with\n    harpkeep check --live --harp \"{}\"\n"
                   "or store what is there with --finish.\n",
                   view.done, view.total, harp_.details.name);
    }

  private:
    Result<void> go_on(db::OpenCheck open)
    {
        if (open.method != pitch_method)
            return failure(
                ErrorCode::refused,
                fmt::format(
                    "the stopped check of {} was measured by \"{}\", this version measures by \"{}\"; "
                    "store it with --finish or begin --anew",
                    harp_.details.name, open.method, pitch_method));
        id_ = open.id;
        begun_ = open.begun;
        recordings_ = open.recordings;
        return set_check(GuidedCheck::resume(harp_.details.layout, std::move(open.state), {.a4 = open.a4}));
    }

    Result<void> set_check(Result<GuidedCheck> check)
    {
        if (!check) return failure(check.error());
        check_.emplace(std::move(*check));
        return {};
    }

    Result<void> count_session()
    {
        recordings_.push_back(words_.record_path);
        int file_index = 0;
        if (id_) {
            const auto counted = db::begin_session(ledger_, *id_, words_.record_path);
            if (!counted) return failure(counted.error());
            file_index = *counted;
        }
        check_->count_file(file_index);
        return {};
    }

    Result<CheckHeader> header_of_sessions() const
    {
        CheckHeader header;
        header.harp_id = harp_.id;
        header.taken = begun_;
        for (const std::string& path : recordings_) {
            Recording recording{.path = path};
            if (!path.empty()) {
                const auto hash = sha256_of_file(path);
                if (!hash) return failure(hash.error());
                recording.sha256 = sha256_from_hex(*hash).value();
                const auto file = SoundFile::open(path);
                if (!file) return failure(file.error());
                recording.duration = Seconds{file->info().duration_s.value_or(0.0)};
            }
            header.recordings.push_back(recording);
        }
        return header;
    }

    const Common& common_;
    db::Ledger& ledger_;
    const HarpRecord& harp_;
    bool no_store_;
    const LiveCheckWords& words_;
    std::optional<GuidedCheck> check_;
    std::optional<Uuid> id_; ///< of the open check in the ledger
    Moment begun_;
    std::vector<std::string> recordings_;
    std::string warning_;
};

} // namespace

void add_live_check_options(CLI::App& command, LiveCheckWords& words)
{
    add_device_options(command, words.device);
    command
        .add_option(
            "--way", words.way,
            "order of a live check: pass-by-pass, string-by-string, pedal-by-pedal, strings, pedal, octave")
        ->capture_default_str();
    command.add_option("--pedal", words.pedal, "the one pedal to check (way pedal): D C B E F G A");
    command.add_option("--octave", words.octave, "the one harp octave to check (way octave): 0 to 7");
    command.add_option("--strings", words.strings, "the strings to check (way strings), for example 4C 3F");
    command.add_flag("--from-top", words.from_top, "begin with the highest string");
    command
        .add_option("--closing", words.closing_strings,
                    "strings sounded again at the end, to see the harp drift")
        ->check(CLI::Range(0, 12))
        ->capture_default_str();
    command.add_option("--record", words.record_path,
                       "keep the sound in this file (.flac), to be analysed again");
    command.add_flag("--anew", words.anew,
                     "begin anew instead of going on with a live check that was stopped");
    command.add_flag("--finish", words.finish, "store a live check that was stopped, as far as it went");
}

Result<CheckPlanRequest> plan_request_from(const LiveCheckWords& words)
{
    CheckPlanRequest request{.from_top = words.from_top, .closing_strings = words.closing_strings};
    const auto way = way_from_name(words.way);
    if (!way)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is no way through a harp; choose pass-by-pass, string-by-string, "
                                   "pedal-by-pedal, strings, pedal or octave",
                                   words.way));
    request.way = *way;
    if (!words.pedal.empty()) {
        request.letter = words.pedal.size() == 1 ? letter_from_name(words.pedal.front()) : std::nullopt;
        if (!request.letter)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" is no pedal; give one of D C B E F G A", words.pedal));
    }
    if (words.octave >= 0) request.harp_octave = words.octave;
    for (const std::string& name : words.strings) {
        const auto place = place_from_harp_name(name);
        if (!place)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" is no string; write octave and letter, for example 4C", name));
        request.strings.push_back(*place);
    }
    return request;
}

Result<void> check_live(const Common& common, const std::string& harp_name, Hertz a4, bool no_store,
                        const LiveCheckWords& words)
{
    auto place = open_harp(common, no_store ? db::Access::read : db::Access::write, harp_name);
    if (!place) return failure(place.error());
    LiveCheck live{common, place->ledger, place->harp, no_store, words};
    if (auto begun = live.begin_or_go_on(a4); !begun) return begun;
    if (!words.finish)
        if (auto ran = live.run(); !ran) return ran;
    if (words.finish || live.complete()) return live.store();
    live.say_how_to_go_on();
    return {};
}

} // namespace harpkeep::cli
