// SPDX-License-Identifier: MIT
#include "ui/dashboard/app.hpp"
#include "ui/dashboard/check_files.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/picture_png.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

namespace harpkeep::dashboard {

namespace {

template <class... Ts>
struct Overloaded : Ts... {
    using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

const std::vector<std::string>& recording_extensions()
{
    static const std::vector<std::string> extensions{".wav", ".flac", ".ogg", ".opus", ".mp3", ".m4a", ".aac",
                                                     ".mp4", ".mov",  ".aif", ".aiff", ".caf", ".webm"};
    return extensions;
}

/// With the dot, in small letters.
std::string extension_of(const std::string& path)
{
    const auto dot = path.find_last_of("./");
    std::string out = dot == std::string::npos || path[dot] == '/' ? std::string{} : path.substr(dot);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

/// Writes a whole file; nothing half-written stays when the disk is full.
Result<void> write_file(const std::string& path, const std::string& bytes)
{
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file{std::fopen(path.c_str(), "wb"), std::fclose};
    if (!file)
        return failure(ErrorCode::unavailable,
                       fmt::format(text::save_failed_format, path, std::strerror(errno)));
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file.get()) == bytes.size() &&
                         std::fflush(file.get()) == 0;
    if (written) return {};
    const int cause = errno;
    std::remove(path.c_str());
    return failure(ErrorCode::unavailable, fmt::format(text::save_failed_format, path, std::strerror(cause)));
}

} // namespace

void App::change_settings(const Settings& wish)
{
    settings_ = wish;
    settings_.font_scale = std::clamp(settings_.font_scale, smallest_font_scale, largest_font_scale);
    // Names of strings stand in tables and plots.
    for (auto& page : pages_) page.prepared = false;
    if (query_.a4_hz != settings_.a4_hz) {
        query_.a4_hz = settings_.a4_hz;
        forget_models();
    }
    apply_theme(palette_of(settings_.theme), scale_);
    if (setup_.remember) setup_.remember(settings_);
}

void App::remember_harp()
{
    if (source_->example()) return;
    settings_.last_harp = query_.harp;
    if (setup_.remember) setup_.remember(settings_);
}

void App::use_source(std::shared_ptr<Source> source)
{
    source_ = std::move(source);
    harps_.clear();
    query_ = {};
    query_.a4_hz = settings_.a4_hz;
    query_.history.place = {Letter::C, 4};
    revision_ = 0;
    first_start_ = false;
    for (auto& page : pages_) page.model.reset();
    states_ = {};
    forget_models();
    messages_.no_more_undo();
    page_ = Page::today;
    take_harps();
}

void App::finish(const Result<Outcome>& outcome)
{
    if (!outcome) {
        messages_.trouble(outcome.error(), now_s_);
        return;
    }
    if (!outcome->message.empty()) messages_.done(outcome->message, outcome->undoable, now_s_);
    if (outcome->choose_harp) {
        query_.harp = *outcome->choose_harp;
        remember_harp();
        first_start_ = false;
    }
    if (outcome->go_to) page_ = *outcome->go_to;
    forget_models();
    take_harps();
}

void App::perform(const Action& action)
{
    const bool long_work =
        std::holds_alternative<CheckRecordings>(action) || std::holds_alternative<ImportClimate>(action);
    jobs_.start(long_work ? text::job_checking : "",
                [this, source = source_, action, query = query_](JobContext& context) -> Jobs::Finish {
                    auto outcome = source->perform(action, query, context);
                    return [this, source, outcome = std::move(outcome)] {
                        if (source == source_) finish(outcome);
                    };
                });
}

void App::undo()
{
    jobs_.start({}, [this, source = source_](JobContext&) -> Jobs::Finish {
        auto outcome = source->undo();
        return [this, outcome = std::move(outcome)] {
            messages_.no_more_undo();
            finish(outcome);
        };
    });
}

void App::ask_path(PathEntry entry, std::function<void(const std::string&)> then)
{
    path_ = std::move(entry);
    path_then_ = std::move(then);
    dialog_ = Dialog::path;
    dialog_opening_ = true;
}

void App::ask_save(const std::string& name, Save bytes)
{
    PathEntry entry;
    entry.path = "~/" + name;
    entry.save = true;
    ask_path(std::move(entry), [this, bytes = std::move(bytes)](const std::string& path) {
        jobs_.start(text::job_saving, [this, bytes, path](JobContext&) -> Jobs::Finish {
            auto made = bytes();
            const Result<void> written = made ? write_file(path, *made) : Result<void>{failure(made.error())};
            return [this, path, written] {
                if (written)
                    messages_.done(fmt::format(text::saved_format, path), false, now_s_);
                else
                    messages_.trouble(written.error(), now_s_);
            };
        });
    });
}

void App::files_dropped(std::vector<std::string> paths)
{
    PrepareCheck recordings;
    for (auto& path : paths) {
        const std::string extension = extension_of(path);
        if (extension == ".harpkeep")
            apply(OpenLedger{path});
        else if (extension == ".csv")
            apply(ImportClimate{path});
        else
            recordings.paths.push_back(std::move(path));
    }
    if (!recordings.paths.empty()) apply(recordings);
}

void App::prepare_check(const std::vector<std::string>& paths)
{
    if (harps_.empty()) {
        messages_.trouble({ErrorCode::not_found, text::no_harp_to_check}, now_s_);
        return;
    }
    for (const auto& path : paths)
        pending_check_.recordings.push_back({path, pass_from_name(path, harp_kind())});
    dialog_ = Dialog::check;
    dialog_opening_ = true;
}

void App::open_source(std::string title, std::function<Result<std::shared_ptr<Source>>(JobContext&)> open)
{
    jobs_.start(std::move(title), [this, open = std::move(open)](JobContext& context) -> Jobs::Finish {
        auto opened = open(context);
        return [this, opened = std::move(opened)] {
            if (!opened) {
                messages_.trouble(opened.error(), now_s_);
                return;
            }
            // The way back from the example leads to what was open before it.
            if (!(*opened)->example())
                own_source_.reset();
            else if (!source_->example())
                own_source_ = source_;
            use_source(*opened);
        };
    });
}

void App::ask_file(ChooseFile::Purpose purpose)
{
    PathEntry entry;
    entry.path = "~/";
    if (purpose == ChooseFile::Purpose::recording) {
        entry.extensions = recording_extensions();
        ask_path(std::move(entry), [this](const std::string& path) { prepare_check({path}); });
    } else if (purpose == ChooseFile::Purpose::climate_table) {
        entry.extensions = {".csv", ".txt"};
        ask_path(std::move(entry), [this](const std::string& path) { perform(ImportClimate{path}); });
    } else {
        entry.extensions = {".harpkeep"};
        ask_path(std::move(entry), [this](const std::string& path) { apply(OpenLedger{path}); });
    }
}

void App::apply(const Action& action)
{
    const auto asked_anew = [this](Page page) {
        ++generation_;
        for (auto& loaded : pages_) loaded.loading = false;
        pages_[static_cast<std::size_t>(page)].wanted = true;
    };
    std::visit(Overloaded{[&](const GoTo& wish) {
                              page_ = wish.page;
                              first_start_ = first_start_ && harps_.empty() && wish.page != Page::settings;
                          },
                          [&](const ChooseHarp& wish) {
                              query_.harp = wish.key;
                              query_.trial.reset();
                              query_.compare_before = query_.compare_after = -1;
                              remember_harp();
                              states_.today = {};
                              states_.strings.rows.chosen_key.clear();
                              states_.tension.rows.chosen_key.clear();
                              states_.visits.visits.chosen_key.clear();
                              first_start_ = false;
                              forget_models();
                          },
                          [&](const ChooseString& wish) { states_.today.chosen = wish.place; },
                          [&](const ChangeSettings& wish) { change_settings(wish.settings); },
                          [&](const ChooseHistory& wish) {
                              query_.history = wish.choice;
                              asked_anew(Page::history);
                          },
                          [&](const CompareChecks& wish) {
                              query_.compare_before = wish.before;
                              query_.compare_after = wish.after;
                              asked_anew(Page::history);
                          },
                          [&](const ChooseHorizon& wish) {
                              query_.horizon_days = wish.days;
                              asked_anew(Page::strings);
                          },
                          [&](const TryGauge& wish) {
                              query_.trial = wish;
                              asked_anew(Page::tension);
                          },
                          [&](const ChoosePedals& wish) {
                              query_.pedals = wish.setting;
                              asked_anew(Page::pedals);
                          },
                          [&](const ChooseFile& wish) { ask_file(wish.purpose); },
                          [&](const PrepareCheck& wish) { prepare_check(wish.paths); },
                          [&](const ExportPicture& wish) {
                              const bool svg = wish.suggested_name.ends_with(".svg");
                              ask_save(wish.suggested_name, [make = wish.make, svg]() -> Result<std::string> {
                                  const auto& paper = palette_of(ThemeKind::light);
                                  const auto picture = make(paper, measure_for_paper());
                                  if (svg) return svg_of(picture, paper[Tint::panel]);
                                  return png_of(picture, paper[Tint::panel]);
                              });
                          },
                          [&](const ExportTable& wish) {
                              ask_save(wish.suggested_name,
                                       [csv = wish.csv]() -> Result<std::string> { return csv; });
                          },
                          [&](const PrintSheet& wish) { ask_sheet(wish); },
                          [&](const OpenExample&) {
                              if (setup_.open_example)
                                  open_source(text::job_example, setup_.open_example);
                              else
                                  messages_.trouble({ErrorCode::refused, text::no_example}, now_s_);
                          },
                          [&](const BackToOwnLedger&) {
                              if (own_source_) use_source(std::exchange(own_source_, nullptr));
                          },
                          [&](const OpenLedger& wish) {
                              if (setup_.open_ledger)
                                  open_source("", [open = setup_.open_ledger, path = wish.path](JobContext&) {
                                      return open(path);
                                  });
                              else
                                  messages_.trouble(
                                      {ErrorCode::refused, fmt::format(text::no_ledger_format, wish.path)},
                                      now_s_);
                          },
                          [&](const StartGuided& wish) {
                              if (settings_.input_device != wish.device) {
                                  auto settings = settings_;
                                  settings.input_device = wish.device;
                                  change_settings(settings);
                              }
                              perform(action);
                          },
                          [&](const SetA4& wish) {
                              auto settings = settings_;
                              settings.a4_hz = wish.a4_hz;
                              change_settings(settings);
                              perform(action);
                          },
                          [&](const ShowFirstStart&) { first_start_ = true; },
                          [&](const UndoLast&) { undo(); },
                          [&](const Refresh&) {
                              forget_models();
                              take_harps();
                          },
                          [&](const auto&) { perform(action); }},
               action);
}

} // namespace harpkeep::dashboard
