// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/focus.hpp"
#include "ui/dashboard/jobs.hpp"
#include "ui/dashboard/messages.hpp"
#include "ui/dashboard/registry.hpp"
#include "ui/dashboard/shell.hpp"
#include "ui/dashboard/source.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/history_view.hpp"
#include "ui/dashboard/views/live_views.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/today_view.hpp"
#include "ui/dashboard/widgets/path_entry.hpp"

#include <array>
#include <memory>

namespace harpkeep::dashboard {

/// What the user did on each page; outlives the models.
struct PageStates {
    TodayState today;
    GuidedState guided;
    TuningState tuning;
    HistoryState history;
    StringsState strings;
    TensionState tension;
    PedalsState pedals;
    VisitsState visits;
    ClimateState climate;
    RoomState room;
    SettingsState settings;
    StartState start;
    EmptyState empty;
};

/// The window without a screen: what it shows, what it is told, what it keeps. Drawn by Dear ImGui, driven by
/// whoever owns the context: the real window, the maker of pictures, or a test.
class App {
  public:
    struct Setup {
        std::shared_ptr<Source> source;
        Settings settings;
        Jobs::Mode jobs = Jobs::Mode::threaded;
        std::function<void()> wake;                    ///< from any thread: draw again
        std::function<void(const Settings&)> remember; ///< keeps the settings between starts; may be empty
        /// Opens a ledger file as a source; empty when only the example can be shown.
        std::function<Result<std::shared_ptr<Source>>(const std::string& path)> open_ledger;
        /// Opens the invented school, making it first when need be; empty when there is none to show.
        std::function<Result<std::shared_ptr<Source>>(JobContext&)> open_example;
        std::string version;
    };
    explicit App(Setup setup);

    /// Scale of the display, 1 for about 96 dots an inch.
    void set_display_scale(float scale) { display_scale_ = scale; }
    /// Size of the window in pixels: in a very large one everything grows.
    void set_window_size(float width, float height)
    {
        window_width_ = width;
        window_height_ = height;
    }
    /// The scale for which fonts should be loaded now.
    [[nodiscard]] float wanted_scale() const;
    void set_fonts(const Fonts& fonts, float scale);
    /// What the screen is cleared with: the page draws no ground of its own.
    [[nodiscard]] Colour ground() const { return palette_of(settings_.theme)[Tint::paper]; }
    [[nodiscard]] bool has_fonts() const { return fonts_.body != nullptr; }

    /// Between frames: ended jobs, keys, orders of tables. Given  now_s  a clock that only rises.
    void before_frame(double now_s);
    /// Between NewFrame and Render.
    void draw_frame();
    /// Files dropped on the window.
    void files_dropped(std::vector<std::string> paths);
    void apply(const Action& action);

    /// True while something moves by itself: a live session, a job, a message that will go.
    [[nodiscard]] bool restless() const;
    /// Rises whenever what is shown has changed by itself.
    [[nodiscard]] std::uint64_t changes() const { return changes_; }
    /// True for the moment between the pointer's coming to rest on a control and its explanation.
    [[nodiscard]] bool settling() const { return settling_; }
    [[nodiscard]] bool live() const { return source_->live(); }
    [[nodiscard]] bool idle() const { return jobs_.idle(); }
    [[nodiscard]] Page page() const { return page_; }
    [[nodiscard]] const Settings& settings() const { return settings_; }
    [[nodiscard]] const Messages& messages() const { return messages_; }
    [[nodiscard]] WidgetRegistry& registry() { return registry_; }
    [[nodiscard]] PageStates& states() { return states_; }
    [[nodiscard]] const Query& query() const { return query_; }
    [[nodiscard]] const std::vector<HarpChoice>& harps() const { return harps_; }
    [[nodiscard]] const PageModel* model(Page page) const;
    [[nodiscard]] bool dialog_open() const { return dialog_ != Dialog::none; }
    /// Why the sheet that is asked for could not be made; empty: nothing is known against it.
    [[nodiscard]] const std::string& sheet_trouble() const { return sheet_.trouble; }

  private:
    enum class Dialog { none, path, check, sheet, keys, messages };
    struct Loaded {
        std::optional<PageModel> model;
        std::string trouble; ///< why it could not be read
        bool prepared = false;
        bool wanted = true; ///< to be read (again)
        bool loading = false;
    };
    using Save = std::function<Result<std::string>()>; ///< the bytes of the file
    /// A sheet that is being asked for.
    struct SheetForm {
        PrintSheet wish;
        std::vector<std::string> rooms;
        int this_year = 0; ///< school year of today
        int room = 0;
        int year = 0; ///< back from this year
        int format = 0;
        int serial = 0;      ///< an answer to an older wish is dropped
        int job = 0;         ///< that makes it; 0: none
        std::string trouble; ///< why it could not be made
    };

    [[nodiscard]] Ui ui();
    void handle_keys();
    /// Tab goes on with a path instead of to the next control.
    [[nodiscard]] bool completing_path() const;
    void go_on_loading();
    void prepare_page();
    void forget_models();
    void take_harps();
    [[nodiscard]] RecordKey first_harp() const;
    void remember_harp();
    void perform(const Action& action);
    void finish(const Result<Outcome>& outcome);
    void undo();
    void change_settings(const Settings& settings);
    void use_source(std::shared_ptr<Source> source);
    void ask_path(PathEntry entry, std::function<void(const std::string&)> then);
    void ask_save(const std::string& name, Save bytes);
    void ask_sheet(const PrintSheet& wish);
    void make_sheet();
    void draw_sheet_choices(const Ui& ui);
    void draw_sheet_dialog(const Ui& ui);
    void ask_file(ChooseFile::Purpose purpose);
    void open_source(std::string title, std::function<Result<std::shared_ptr<Source>>(JobContext&)> open);
    void prepare_check(const std::vector<std::string>& paths);
    [[nodiscard]] HarpKind harp_kind() const;
    [[nodiscard]] Actions draw_page(const Ui& ui);
    void draw_dialogs(const Ui& ui);
    void draw_path_dialog(const Ui& ui);
    void draw_check_dialog(const Ui& ui);
    void draw_keys_dialog(const Ui& ui);
    void draw_messages_dialog(const Ui& ui);

    std::shared_ptr<Source> source_;
    std::shared_ptr<Source> own_source_; ///< while the example is shown
    Setup setup_;
    Settings settings_;
    Page page_ = Page::today;
    bool first_start_ = false;
    Query query_;
    std::vector<HarpChoice> harps_;
    std::array<Loaded, static_cast<std::size_t>(Page::count)> pages_;
    PageStates states_;
    Messages messages_;
    WidgetRegistry registry_;
    KeyStrokes keys_;
    Dialog dialog_ = Dialog::none;
    bool dialog_opening_ = false;
    CheckRecordings pending_check_;
    SheetForm sheet_;
    PathEntry path_;
    std::function<void(const std::string&)> path_then_;
    Fonts fonts_;
    float scale_ = 1.0F;
    float display_scale_ = 1.0F;
    float window_width_ = 0.0F;
    float window_height_ = 0.0F;
    double now_s_ = 0.0;
    double asked_revision_s_ = 0.0;
    double asked_devices_s_ = 0.0;
    std::uint64_t revision_ = 0;
    std::uint64_t changes_ = 0;
    bool had_message_ = false;
    long shown_progress_ = 0;
    bool settling_ = false;
    int generation_ = 0; ///< answers to questions of an older query are dropped
    Jobs jobs_;          ///< last: its worker ends before the rest goes
};

} // namespace harpkeep::dashboard
