// SPDX-License-Identifier: MIT
#include "ui/dashboard/pictures/indexed_png.hpp"
#include "ui/dashboard/pictures/offscreen.hpp"
#include "ui/dashboard/staged/scenes.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <optional>

namespace harpkeep::dashboard {

namespace {

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

/// A school is made once for each number of harps and then copied for every picture, so that none shows what
/// was done for another. The copy has one name, so that the ledger's path reads alike in all; one is gone
/// when the next is asked for.
class Schools {
  public:
    explicit Schools(std::filesystem::path folder) : folder_(std::move(folder)) {}

    [[nodiscard]] Result<std::shared_ptr<Source>> fresh(const StagedSchool& school)
    {
        const auto master = folder_ / fmt::format("master-{}", school.harps);
        if (!std::filesystem::exists(master))
            if (const auto made = staged_school(master.string(), school); !made) return failure(made.error());
        const auto copy = folder_ / "music-school";
        std::filesystem::remove_all(copy);
        std::filesystem::copy(master, copy);
        return staged_school(copy.string(), school);
    }

  private:
    std::filesystem::path folder_;
};

std::unique_ptr<App> app_for(std::shared_ptr<Source> source, ThemeKind theme, double font_scale)
{
    App::Setup setup;
    setup.source = std::move(source);
    setup.settings.theme = theme;
    setup.settings.font_scale = font_scale;
    setup.jobs = Jobs::Mode::inline_;
    setup.version = HARPKEEP_VERSION;
    return std::make_unique<App>(std::move(setup));
}

/// Milliseconds a frame of the live check takes at 1280 by 800, drawn as fast as it goes.
Result<void> measure_live(const FontFiles& fonts, Schools& schools)
{
    auto screen = Offscreen::open(fonts);
    if (!screen) return failure(screen.error());
    for (const auto& [name, page] : {std::pair{"guided check", Page::guided},
                                     std::pair{"tuning", Page::tuning}, std::pair{"today", Page::today}}) {
        auto source = schools.fresh({.phase = LivePhase::hearing});
        if (!source) return failure(source.error());
        auto app = app_for(std::move(*source), ThemeKind::light, 1.0);
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

struct Options {
    std::string folder = "docs/user/pictures";
    std::string only; ///< one scene; empty: those of the user guide
    bool all = false;
    bool list = false;
    bool measure = false;
    std::vector<Size> sizes{{1024, 700}, {1600, 1000}};
    double font_scale = 1.0;
    double display_scale = 1.0;
};

constexpr const char* usage =
    "usage: harpkeep_pictures [--out FOLDER] [--only SCENE | --all] [--size WIDTHxHEIGHT] [--font-scale F]\n"
    "                         [--display-scale F]\n"
    "       harpkeep_pictures --list | --measure\n"
    "Draws the pages of the window for the user guide (--all: in every state) with the invented school, "
    "light and\n"
    "dark, at two sizes, without a screen. --list names the files instead, --measure times the drawing.\n";

/// Nothing when the words make no sense.
std::optional<Options> options_from(int argc, char** argv)
{
    Options options;
    for (int i = 1; i < argc; ++i) {
        const std::string option = argv[i];
        if (option == "--measure" || option == "--list" || option == "--all") {
            (option == "--all" ? options.all : option == "--list" ? options.list : options.measure) = true;
            continue;
        }
        if (i + 1 >= argc) return std::nullopt;
        const char* value = argv[++i];
        Size size{};
        if (option == "--out")
            options.folder = value;
        else if (option == "--only")
            options.only = value;
        else if (option == "--font-scale")
            options.font_scale = std::strtod(value, nullptr);
        else if (option == "--display-scale" && std::strtod(value, nullptr) > 0.0)
            options.display_scale = std::strtod(value, nullptr);
        else if (option == "--size" && std::sscanf(value, "%dx%d", &size.width, &size.height) == 2 &&
                 size.width > 0 && size.height > 0)
            options.sizes = {size};
        else
            return std::nullopt;
    }
    return options;
}

bool wanted(const Scene& scene, const Options& options)
{
    if (!options.only.empty()) return options.only == scene.name;
    return options.all || scene.in_guide;
}

std::string file_name(const Scene& scene, ThemeKind theme, Size size)
{
    return fmt::format("{}-{}-{}x{}.png", scene.name, theme == ThemeKind::light ? "light" : "dark",
                       size.width, size.height);
}

Result<void> make_one(const Scene& scene, ThemeKind theme, Size size, const Options& options,
                      Schools& schools, const FontFiles& fonts)
{
    auto screen = Offscreen::open(fonts);
    if (!screen) return failure(screen.error());
    auto source = schools.fresh(scene.school);
    if (!source) return failure(source.error());
    const auto app = app_for(std::move(*source), theme, options.font_scale);
    app->set_display_scale(static_cast<float>(options.display_scale));
    app->before_frame(0.0);
    scene.arrange(*app);
    const auto rows = (*screen)->draw(*app, size.width, size.height);
    if (!rows) return failure(rows.error());
    const auto png = indexed_png(*rows, size.width, size.height);
    if (!png) return failure(png.error());
    return write(std::filesystem::path{options.folder} / file_name(scene, theme, size), *png);
}

Result<int> make_all(const Options& options, Schools& schools, const FontFiles& fonts)
{
    std::error_code error;
    std::filesystem::create_directories(options.folder, error);
    if (error)
        return failure(ErrorCode::unavailable,
                       fmt::format("making the folder {}: {}", options.folder, error.message()));
    int count = 0;
    for (const auto& scene : all_scenes())
        for (const ThemeKind theme : {ThemeKind::light, ThemeKind::dark})
            for (const Size size : options.sizes) {
                if (!wanted(scene, options)) continue;
                if (const auto made = make_one(scene, theme, size, options, schools, fonts); !made)
                    return failure(made.error());
                ++count;
            }
    if (count == 0)
        return failure(ErrorCode::not_found, "there is no scene " + options.only + "; see --list --all");
    fmt::print("{} pictures in {}\n", count, options.folder);
    return count;
}

void list(const Options& options)
{
    for (const auto& scene : all_scenes())
        for (const ThemeKind theme : {ThemeKind::light, ThemeKind::dark})
            for (const Size size : options.sizes)
                if (wanted(scene, options)) fmt::print("{}\n", file_name(scene, theme, size));
}

Result<void> work_in(const std::string& folder, const Options& options)
{
    const auto fonts = find_fonts();
    if (!fonts) return failure(fonts.error());
    ::setenv("HOME", folder.c_str(), 1); // as if the school were one's own
    Schools schools{folder};
    if (options.measure) return measure_live(*fonts, schools);
    const auto made = make_all(options, schools, *fonts);
    return made ? Result<void>{} : failure(made.error());
}

int run(int argc, char** argv)
{
    const auto options = options_from(argc, argv);
    if (!options) {
        fmt::print(stderr, "{}", usage);
        return 2;
    }
    if (options->list) {
        list(*options);
        return 0;
    }
    std::string folder = (std::filesystem::temp_directory_path() / "harpkeep-pictures-XXXXXX").string();
    if (::mkdtemp(folder.data()) == nullptr) {
        fmt::print(stderr, "harpkeep_pictures: making a folder for the example: {}\n", std::strerror(errno));
        return 6;
    }
    const auto done = work_in(folder, *options);
    std::error_code ignored; // what cannot be removed is left to the system
    std::filesystem::remove_all(folder, ignored);
    if (!done) fmt::print(stderr, "harpkeep_pictures: {}\n", done.error().message);
    return done ? 0 : 6;
}

} // namespace

} // namespace harpkeep::dashboard

int main(int argc, char** argv)
{
    return harpkeep::dashboard::run(argc, argv);
}
