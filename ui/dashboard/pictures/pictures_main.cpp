// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example_source.hpp"
#include "ui/dashboard/pictures/offscreen.hpp"
#include "ui/dashboard/widgets/picture_png.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <functional>
#include <optional>

namespace harpkeep::dashboard {

namespace {

/// One picture: what the example holds, and what is pressed before it is taken.
struct Scene {
    const char* name;
    ExampleSource::Start start;
    std::function<void(App&)> arrange;
};

std::vector<Scene> all_scenes()
{
    const auto at = [](Page page) { return [page](App& app) { app.apply(GoTo{page}); }; };
    const auto live = [](LivePhase phase) { return ExampleSource::Start{24, true, phase}; };
    return {
        {"today", {}, at(Page::today)},
        {"guided-set-up", {}, at(Page::guided)},
        {"guided-listening", live(LivePhase::listening), at(Page::guided)},
        {"guided-set-pedals", live(LivePhase::set_pedals), at(Page::guided)},
        {"guided-ask-again", live(LivePhase::ask_again), at(Page::guided)},
        {"guided-device-lost", live(LivePhase::device_lost), at(Page::guided)},
        {"guided-finished", live(LivePhase::finished), at(Page::guided)},
        {"tuning",
         {},
         [](App& app) {
             app.apply(GoTo{Page::tuning});
             app.apply(StartTuning{});
         }},
        {"tuning-silent", {}, at(Page::tuning)},
        {"history",
         {},
         [](App& app) {
             app.apply(ChooseHistory{{false, {Letter::F, 4}, Step::lower}});
             app.apply(GoTo{Page::history});
         }},
        {"history-pedal",
         {},
         [](App& app) {
             app.apply(ChooseHistory{{true, {Letter::F, 4}, Step::lower}});
             app.apply(GoTo{Page::history});
         }},
        {"strings",
         {},
         [](App& app) {
             app.apply(GoTo{Page::strings});
             app.states().strings.rows.chosen_key = "3B";
         }},
        {"strings-lives",
         {},
         [](App& app) {
             app.apply(GoTo{Page::strings});
             app.states().strings.tab = 1;
         }},
        {"strings-stock",
         {},
         [](App& app) {
             app.apply(GoTo{Page::strings});
             app.states().strings.tab = 2;
         }},
        {"tension",
         {},
         [](App& app) {
             app.apply(GoTo{Page::tension});
             app.states().tension.rows.chosen_key = "4C";
             app.apply(TryGauge{{Letter::C, 4}, 1.36});
         }},
        {"pedals",
         {},
         [](App& app) {
             app.apply(ChoosePedals{{{0, 0, -1, 0, 0, -1, -1}}});
             app.apply(GoTo{Page::pedals});
         }},
        {"visits",
         {},
         [](App& app) {
             app.apply(GoTo{Page::visits});
             app.states().visits.chosen = example::today_day - std::chrono::days{2};
         }},
        {"climate", {}, at(Page::climate)},
        {"room", {200, true, LivePhase::setting_up}, at(Page::room)},
        {"settings", {}, at(Page::settings)},
        {"first-start", {0, false, LivePhase::setting_up}, [](App&) {}},
        {"empty-check", {4, false, LivePhase::setting_up}, at(Page::today)},
        {"message",
         {},
         [](App& app) {
             app.apply(GoTo{Page::strings});
             app.apply(StringBroke{*place_from_harp_name("2A")});
         }},
        {"save-as",
         {},
         [](App& app) {
             app.apply(ExportTable{"strings.csv", ""});
         }},
        {"keys",
         {},
         [](App& app) {
             (void)app;
             ImGui::GetIO().KeysDown[290] = true;
         }},
    };
}

struct Size {
    int width, height;
};

Result<void> write(const std::filesystem::path& path, const std::string& bytes)
{
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file{std::fopen(path.c_str(), "wb"), std::fclose};
    if (!file || std::fwrite(bytes.data(), 1, bytes.size(), file.get()) != bytes.size())
        return failure(ErrorCode::unavailable,
                       fmt::format("writing {}: {}", path.string(), std::strerror(errno)));
    return {};
}

std::unique_ptr<App> app_for(const Scene& scene, ThemeKind theme, double font_scale)
{
    App::Setup setup;
    setup.source = std::make_shared<ExampleSource>(scene.start);
    setup.settings.theme = theme;
    setup.settings.font_scale = font_scale;
    setup.jobs = Jobs::Mode::inline_;
    setup.version = HARPKEEP_VERSION;
    return std::make_unique<App>(std::move(setup));
}

/// Milliseconds a frame of the live check takes at 1280 by 800, drawn as fast as it goes.
Result<void> measure_live(const FontFiles& fonts)
{
    auto screen = Offscreen::open(fonts);
    if (!screen) return failure(screen.error());
    for (const auto& [name, page] : {std::pair{"guided check", Page::guided},
                                     std::pair{"tuning", Page::tuning}, std::pair{"today", Page::today}}) {
        const Scene scene{name, {24, true, LivePhase::hearing}, {}};
        auto app = app_for(scene, ThemeKind::light, 1.0);
        app->apply(GoTo{page});
        if (page == Page::tuning) app->apply(StartTuning{});
        for (int i = 0; i < 20; ++i) (*screen)->draw_once(*app, 1280, 800);
        constexpr int frames = 200;
        const auto begin = std::chrono::steady_clock::now();
        double laid_out_s = 0.0;
        const auto cpu_begin = std::clock();
        for (int i = 0; i < frames; ++i) laid_out_s += (*screen)->draw_once(*app, 1280, 800);
        const double cpu_ms = 1000.0 * static_cast<double>(std::clock() - cpu_begin) / CLOCKS_PER_SEC;
        const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
        fmt::print("{}: {:.2f} ms a frame ({:.0f} frames a second), {:.2f} ms of it before drawing; {:.2f} "
                   "ms of processor\n",
                   name, took.count() / frames, 1000.0 * frames / took.count(), 1000.0 * laid_out_s / frames,
                   cpu_ms / frames);
    }
    return {};
}

Result<int> make_all(const std::filesystem::path& folder, const std::string& only, std::optional<Size> size,
                     double font_scale)
{
    const auto fonts = find_fonts();
    if (!fonts) return failure(fonts.error());
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error)
        return failure(ErrorCode::unavailable,
                       fmt::format("making the folder {}: {}", folder.string(), error.message()));
    const std::vector<Size> sizes =
        size ? std::vector{*size} : std::vector{Size{1024, 700}, Size{1600, 1000}};
    int count = 0;
    for (const auto& scene : all_scenes()) {
        if (!only.empty() && only != scene.name) continue;
        for (const ThemeKind theme : {ThemeKind::light, ThemeKind::dark})
            for (const Size s : sizes) {
                auto screen = Offscreen::open(*fonts);
                if (!screen) return failure(screen.error());
                const auto app = app_for(scene, theme, font_scale);
                app->before_frame(0.0);
                scene.arrange(*app);
                const auto rows = (*screen)->draw(*app, s.width, s.height);
                if (!rows) return failure(rows.error());
                const auto png = png_of_rows(*rows, s.width, s.height);
                if (!png) return failure(png.error());
                const auto file =
                    folder / fmt::format("{}-{}-{}x{}.png", scene.name,
                                         theme == ThemeKind::light ? "light" : "dark", s.width, s.height);
                if (const auto written = write(file, *png); !written) return failure(written.error());
                ++count;
            }
    }
    return count;
}

int run(int argc, char** argv)
{
    std::string folder = "docs/user/pictures", only;
    std::optional<Size> size;
    double font_scale = 1.0;
    bool measure = false;
    for (int i = 1; i < argc; ++i) {
        const std::string option = argv[i];
        const char* value = i + 1 < argc ? argv[i + 1] : nullptr;
        Size s{};
        if (option == "--measure")
            measure = true;
        else if (option == "--out" && value != nullptr)
            folder = argv[++i];
        else if (option == "--only" && value != nullptr)
            only = argv[++i];
        else if (option == "--font-scale" && value != nullptr)
            font_scale = std::strtod(argv[++i], nullptr);
        else if (option == "--size" && value != nullptr &&
                 std::sscanf(value, "%dx%d", &s.width, &s.height) == 2 && s.width > 0 && s.height > 0) {
            size = s;
            ++i;
        } else {
            fmt::print(stderr, "usage: harpkeep_pictures [--out FOLDER] [--only SCENE] [--size WIDTHxHEIGHT] "
                               "[--font-scale F] | --measure\n"
                               "Draws every page of the window with the invented example, light and dark, at "
                               "two sizes, without a screen.\n");
            return option == "--help" ? 0 : 2;
        }
    }
    if (measure) {
        const auto fonts = find_fonts();
        const auto done = fonts ? measure_live(*fonts) : Result<void>{failure(fonts.error())};
        if (!done) fmt::print(stderr, "harpkeep_pictures: {}\n", done.error().message);
        return done ? 0 : 6;
    }
    const auto made = make_all(folder, only, size, font_scale);
    if (!made) {
        fmt::print(stderr, "harpkeep_pictures: {}\n", made.error().message);
        return 6;
    }
    fmt::print("{} pictures in {}\n", *made, folder);
    return *made > 0 ? 0 : 3;
}

} // namespace

} // namespace harpkeep::dashboard

int main(int argc, char** argv)
{
    return harpkeep::dashboard::run(argc, argv);
}
