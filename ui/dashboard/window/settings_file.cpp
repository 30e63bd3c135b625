// SPDX-License-Identifier: MIT
#include "ui/dashboard/window/settings_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>

namespace harpkeep::dashboard {

namespace {

namespace fs = std::filesystem;
constexpr const char* file_name = "window.conf";

void read_line(const std::string& name, const std::string& value, Settings& settings)
{
    char* end = nullptr;
    const double number = std::strtod(value.c_str(), &end);
    const bool numeric = end != value.c_str() && *end == '\0' && std::isfinite(number);
    if (name == "theme") {
        if (value == "light") settings.theme = ThemeKind::light;
        if (value == "dark") settings.theme = ThemeKind::dark;
    } else if (name == "font_scale" && numeric)
        settings.font_scale = std::clamp(number, smallest_font_scale, largest_font_scale);
    else if (name == "grow")
        settings.grow = value != "no";
    else if (name == "names") {
        if (value == "harp_octave") settings.names = NameStyle::harp_octave;
        if (value == "scientific") settings.names = NameStyle::scientific;
        if (value == "number") settings.names = NameStyle::number;
    } else if (name == "dark_f")
        settings.dark_f = value == "yes";
    else if (name == "a4_hz" && numeric && number >= 392.0 && number <= 466.0)
        settings.a4_hz = number;
    else if (name == "input_device")
        settings.input_device = value;
    else if (name == "last_harp")
        settings.last_harp = value;
    else if (name == "paper")
        settings.paper = report::paper_from_name(value).value_or(settings.paper);
}

} // namespace

std::string state_folder()
{
    const char* state = std::getenv("XDG_STATE_HOME");
    const char* home = std::getenv("HOME");
    fs::path folder;
    if (state != nullptr && state[0] == '/')
        folder = fs::path{state} / "harpkeep"; // relative paths are to be ignored
    else if (home != nullptr && home[0] == '/')
        folder = fs::path{home} / ".local" / "state" / "harpkeep";
    else
        return {};
    std::error_code error;
    fs::create_directories(folder, error);
    return error ? std::string{} : folder.string();
}

std::string text_of(const Settings& settings)
{
    constexpr std::array<const char*, 3> names{"harp_octave", "scientific", "number"};
    return fmt::format(
        "theme {}\nfont_scale {:.1f}\ngrow {}\nnames {}\ndark_f {}\na4_hz {:.1f}\ninput_device {}\nlast_harp "
        "{}\npaper {}\n",
        settings.theme == ThemeKind::light ? "light" : "dark", settings.font_scale,
        settings.grow ? "yes" : "no", names[static_cast<std::size_t>(settings.names)],
        settings.dark_f ? "yes" : "no", settings.a4_hz, settings.input_device, settings.last_harp,
        report::paper_name(settings.paper));
}

Settings settings_from_text(std::string_view text, Settings settings)
{
    std::istringstream lines{std::string{text}};
    for (std::string line; std::getline(lines, line);) {
        const auto space = line.find(' ');
        if (space != std::string::npos) read_line(line.substr(0, space), line.substr(space + 1), settings);
    }
    return settings;
}

Settings load_settings(const std::string& folder)
{
    if (folder.empty()) return {};
    std::ifstream file{fs::path{folder} / file_name};
    std::ostringstream text;
    text << file.rdbuf();
    return settings_from_text(text.str());
}

Result<void> save_settings(const std::string& folder, const Settings& settings)
{
    if (folder.empty()) return {};
    const std::string target = (fs::path{folder} / file_name).string();
    const std::string fresh = target + ".new";
    const auto failed = [&](int cause) {
        return failure(ErrorCode::unavailable,
                       fmt::format("keeping the settings in {}: {}", target, std::strerror(cause)));
    };
    {
        const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file{std::fopen(fresh.c_str(), "wb"),
                                                                   std::fclose};
        if (!file) return failed(errno);
        const std::string text = text_of(settings);
        if (std::fwrite(text.data(), 1, text.size(), file.get()) != text.size() ||
            std::fflush(file.get()) != 0)
            return failed(errno);
    }
    if (std::rename(fresh.c_str(), target.c_str()) != 0) return failed(errno);
    return {};
}

} // namespace harpkeep::dashboard
