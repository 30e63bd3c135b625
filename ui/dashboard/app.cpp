// SPDX-License-Identifier: MIT
#include "ui/dashboard/app.hpp"

#include "base/expects.hpp"
#include "ui/dashboard/keys.hpp"
#include "ui/dashboard/text.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

template <class Model, class State>
void prepare_if_needed(const PageModel& model, const Settings& settings, State& state)
{
    if (const auto* page = std::get_if<Model>(&model)) prepare(*page, settings, state);
}

} // namespace

App::App(Setup setup)
    : source_(setup.source),
      setup_(std::move(setup)),
      settings_(setup_.settings),
      jobs_(setup_.jobs, setup_.wake)
{
    HARPKEEP_EXPECTS(source_ != nullptr);
    query_.a4_hz = settings_.a4_hz;
    query_.history.place = {Letter::C, 4};
    take_harps();
}

float App::wanted_scale() const
{
    const float growth = settings_.grow ? window_growth(window_width_, window_height_, display_scale_) : 1.0F;
    return display_scale_ * growth *
           static_cast<float>(std::clamp(settings_.font_scale, smallest_font_scale, largest_font_scale));
}

void App::set_fonts(const Fonts& fonts, float scale)
{
    fonts_ = fonts;
    scale_ = scale;
    apply_theme(palette_of(settings_.theme), scale);
}

Ui App::ui()
{
    return {&palette_of(settings_.theme), fonts_, scale_, settings_, &registry_};
}

const PageModel* App::model(Page page) const
{
    const auto& loaded = pages_[static_cast<std::size_t>(page)];
    return loaded.model ? &*loaded.model : nullptr;
}

bool App::restless() const
{
    return live() || !jobs_.idle() || messages_.current(now_s_) != nullptr;
}

RecordKey App::first_harp() const
{
    const auto last = std::find_if(harps_.begin(), harps_.end(),
                                   [&](const HarpChoice& harp) { return harp.key == settings_.last_harp; });
    if (last != harps_.end()) return last->key;
    const auto oldest = std::min_element(harps_.begin(), harps_.end(),
                                         [](const auto& a, const auto& b) { return a.key < b.key; });
    return oldest == harps_.end() ? RecordKey{} : oldest->key;
}

HarpKind App::harp_kind() const
{
    const auto found = std::find_if(harps_.begin(), harps_.end(),
                                    [&](const HarpChoice& harp) { return harp.key == query_.harp; });
    return found == harps_.end() ? HarpKind::pedal : found->kind;
}

void App::take_harps()
{
    auto source = source_;
    jobs_.start({}, [this, source](JobContext&) -> Jobs::Finish {
        auto harps = source->harps();
        return [this, source, harps = std::move(harps)] {
            if (source != source_) return;
            if (!harps) {
                messages_.trouble(harps.error(), now_s_);
                return;
            }
            harps_ = *harps;
            const bool known = std::any_of(harps_.begin(), harps_.end(),
                                           [&](const HarpChoice& harp) { return harp.key == query_.harp; });
            if (!known) {
                query_.harp = first_harp();
                forget_models();
            }
            if (harps_.empty()) first_start_ = true;
        };
    });
}

void App::forget_models()
{
    ++generation_;
    for (auto& page : pages_) {
        page.wanted = true;
        page.loading = false;
    }
}

void App::go_on_loading()
{
    auto& loaded = pages_[static_cast<std::size_t>(page_)];
    const bool live_page = (page_ == Page::guided || page_ == Page::tuning) && source_->live();
    // A microphone that is plugged in appears by itself.
    const auto* guided = loaded.model ? std::get_if<GuidedModel>(&*loaded.model) : nullptr;
    const bool wants_device = page_ == Page::guided && guided != nullptr &&
                              guided->phase == LivePhase::setting_up && guided->devices.empty() &&
                              now_s_ - asked_devices_s_ >= 2.0;
    if (loaded.loading || (!loaded.wanted && !live_page && !wants_device)) return;
    asked_devices_s_ = now_s_;
    loaded.wanted = false;
    loaded.loading = true;
    jobs_.start({},
                [this, source = source_, page = page_, query = query_,
                 generation = generation_](JobContext&) -> Jobs::Finish {
                    auto answer = source->load(page, query);
                    return [this, page, generation, answer = std::move(answer)] {
                        if (generation != generation_) return;
                        auto& done = pages_[static_cast<std::size_t>(page)];
                        done.loading = false;
                        done.trouble.clear();
                        if (!answer) {
                            done.trouble = answer.error().message;
                            return;
                        }
                        done.model = *answer;
                        done.prepared = false;
                        if (auto* settings = std::get_if<SettingsModel>(&*done.model))
                            settings->version = setup_.version;
                    };
                });
}

void App::prepare_page()
{
    auto& loaded = pages_[static_cast<std::size_t>(page_)];
    if (loaded.model && !loaded.prepared) {
        prepare_if_needed<TodayModel>(*loaded.model, settings_, states_.today);
        prepare_if_needed<HistoryModel>(*loaded.model, settings_, states_.history);
        prepare_if_needed<StringsModel>(*loaded.model, settings_, states_.strings);
        prepare_if_needed<TensionModel>(*loaded.model, settings_, states_.tension);
        prepare_if_needed<PedalsModel>(*loaded.model, settings_, states_.pedals);
        prepare_if_needed<VisitsModel>(*loaded.model, settings_, states_.visits);
        prepare_if_needed<ClimateModel>(*loaded.model, settings_, states_.climate);
        prepare_if_needed<RoomModel>(*loaded.model, settings_, states_.room);
        loaded.prepared = true;
    }
    for (TableState* table :
         {&states_.history.changes, &states_.strings.rows, &states_.strings.stock, &states_.tension.rows,
          &states_.pedals.rows, &states_.visits.visits, &states_.room.rows})
        arrange(*table);
}

void App::before_frame(double now_s)
{
    now_s_ = now_s;
    if (jobs_.collect()) ++changes_;
    if (const bool message = messages_.current(now_s) != nullptr; message != had_message_) {
        had_message_ = message;
        ++changes_;
    }
    long progress = 0;
    for (const auto& job : jobs_.running()) progress += 1000L * job.id + std::lround(100.0 * job.share);
    if (std::exchange(shown_progress_, progress) != progress) ++changes_;
    if (now_s - asked_revision_s_ >= 1.0) {
        asked_revision_s_ = now_s;
        const auto revision = source_->revision();
        if (revision != revision_ && revision_ != 0) {
            forget_models();
            take_harps();
        }
        revision_ = revision;
    }
    keys_.update();
    if (!completing_path()) walk_by_keys(keys_, registry_);
    handle_keys();
    go_on_loading();
    if (jobs_.collect()) ++changes_;
    prepare_page();
    if (dialog_ != Dialog::sheet && sheet_.job != 0) jobs_.cancel(std::exchange(sheet_.job, 0));
    if (dialog_ == Dialog::path) update_offers(path_);
}

bool App::completing_path() const
{
    if (dialog_ != Dialog::path || !keys_.pressed(key_tab) || ImGui::GetIO().KeyShift) return false;
    const auto* field = registry_.find("path.path");
    return field != nullptr && ImGui::GetCurrentContext()->ActiveId == field->id &&
           completed_path(path_.path, path_.offers) != path_.path;
}

void App::handle_keys()
{
    const ImGuiIO& io = ImGui::GetIO();
    if (keys_.pressed(key_escape)) {
        if (dialog_ != Dialog::none)
            dialog_ = Dialog::none;
        else
            messages_.put_away();
    }
    if (keys_.pressed(key_f1)) {
        dialog_ = dialog_ == Dialog::keys ? Dialog::none : Dialog::keys;
        dialog_opening_ = dialog_ == Dialog::keys;
    }
    if (dialog_ != Dialog::none) return;
    if (keys_.pressed(key_f5)) apply(Refresh{});
    if (io.KeyCtrl) {
        for (int digit = 0; digit <= 9; ++digit)
            if (keys_.pressed(key_0 + digit)) {
                if (io.KeyShift && digit == 0) {
                    auto wish = settings_;
                    wish.font_scale = 1.0;
                    change_settings(wish);
                } else
                    apply(GoTo{all_pages[static_cast<std::size_t>((digit + 9) % 10)]});
            }
        if (keys_.pressed(key_comma)) apply(GoTo{Page::settings});
        if (keys_.pressed(key_z) && !typing()) undo();
        if (keys_.pressed(key_o)) apply(ChooseFile{ChooseFile::Purpose::recording});
        auto wish = settings_;
        if (keys_.pressed('T'))
            wish.theme = wish.theme == ThemeKind::light ? ThemeKind::dark : ThemeKind::light;
        if (keys_.pressed(key_equal) || keys_.pressed(334)) wish.font_scale += 0.1; // also the keypad's plus
        if (keys_.pressed(key_minus) || keys_.pressed(333)) wish.font_scale -= 0.1;
        if (!(wish == settings_)) change_settings(wish);
        if (keys_.pressed(key_f))
            for (const auto& note : registry_.widgets())
                if (note.name.ends_with(".filter")) registry_.focus(note.name);
        return;
    }
    if (page_ != Page::guided || typing()) return;
    const auto* page = model(Page::guided);
    const auto* guided = page != nullptr ? std::get_if<GuidedModel>(page) : nullptr;
    if (guided == nullptr || guided->phase == LivePhase::setting_up || guided->phase == LivePhase::finished)
        return;
    // The space bar pauses, unless it presses what the ring is on.
    const bool on_button = !ImGui::GetCurrentContext() || ImGui::IsAnyItemFocused();
    if (keys_.pressed(key_space) && !on_button) {
        if (guided->phase == LivePhase::paused)
            apply(ResumeGuided{});
        else
            apply(PauseGuided{});
    }
    if (keys_.pressed(key_r)) apply(RepeatString{});
    if (keys_.pressed(key_s)) apply(SkipString{});
}

} // namespace harpkeep::dashboard
