// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/path_entry.hpp"

#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

namespace harpkeep::dashboard {

namespace {

namespace fs = std::filesystem;
constexpr std::size_t most_offers = 200;

/// The path up to and with its last slash, and what follows.
std::pair<std::string, std::string> parted(const std::string& path)
{
    const auto slash = path.rfind('/');
    if (slash == std::string::npos) return {"", path};
    return {path.substr(0, slash + 1), path.substr(slash + 1)};
}

bool wanted(const fs::path& file, const std::vector<std::string>& extensions)
{
    if (extensions.empty()) return true;
    std::string extension = file.extension().string();
    for (char& c : extension)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return std::find(extensions.begin(), extensions.end(), extension) != extensions.end();
}

/// Dear ImGui keeps its own copy of the text while a field is active; give it the new one.
void retype(ImGuiID field, const std::string& text)
{
    if (ImGuiInputTextState* state = ImGui::GetInputTextState(field)) {
        state->TextW.resize(static_cast<int>(text.size()) + 256);
        state->CurLenW = ImTextStrFromUtf8(state->TextW.Data, state->TextW.Size, text.c_str(), nullptr);
        state->CurLenA = static_cast<int>(text.size());
        state->TextA.resize(static_cast<int>(text.size()) + 256);
        std::copy(text.c_str(), text.c_str() + text.size() + 1, state->TextA.Data);
        state->TextAIsValid = true;
        state->Stb.cursor = state->Stb.select_start = state->Stb.select_end = state->CurLenW;
    }
}

/// What a low window leaves for the list between the field and the buttons, in pixels.
float offers_height(const Ui& ui)
{
    const float above = ImGui::GetCursorPosY();
    const float below = 2.0F * ImGui::GetFrameHeightWithSpacing() + ui.px(40.0F);
    return std::clamp(ImGui::GetIO().DisplaySize.y - above - below, ui.px(64.0F), ui.px(220.0F));
}

} // namespace

std::string expanded_path(const std::string& path)
{
    if (!path.starts_with("~") || (path.size() > 1 && path[1] != '/')) return path;
    const char* home = std::getenv("HOME");
    return home == nullptr ? path : home + path.substr(1);
}

std::string shortened_path(const std::string& path)
{
    const char* home = std::getenv("HOME");
    if (home == nullptr || *home == '\0') return path;
    std::string begin = home;
    if (!begin.ends_with('/')) begin += '/';
    return path.starts_with(begin) && begin.size() > 1 ? "~/" + path.substr(begin.size()) : path;
}

std::vector<PathOffer> path_offers(const std::string& path, const std::vector<std::string>& extensions)
{
    const auto [folder, begin] = parted(expanded_path(path));
    std::vector<PathOffer> offers;
    std::error_code error;
    fs::directory_iterator entries{folder.empty() ? fs::path{"."} : fs::path{folder},
                                   fs::directory_options::skip_permission_denied, error};
    if (error) return offers;
    for (; entries != fs::directory_iterator{}; entries.increment(error)) {
        if (error) break;
        const std::string name = entries->path().filename().string();
        if (!name.starts_with(begin) || (name.starts_with(".") && !begin.starts_with("."))) continue;
        std::error_code kind_error;
        const bool is_folder = entries->is_directory(kind_error);
        if (is_folder || wanted(entries->path(), extensions)) offers.push_back({name, is_folder});
    }
    std::sort(offers.begin(), offers.end(), [](const PathOffer& a, const PathOffer& b) {
        return a.folder != b.folder ? a.folder : a.name < b.name;
    });
    if (offers.size() > most_offers) offers.resize(most_offers);
    return offers;
}

std::string completed_path(const std::string& path, const std::vector<PathOffer>& offers)
{
    if (offers.empty()) return path;
    std::string common = offers.front().name;
    for (const auto& offer : offers) {
        const auto [end, other] =
            std::mismatch(common.begin(), common.end(), offer.name.begin(), offer.name.end());
        common.erase(end, common.end());
    }
    // Cut no letter in half: bytes 10xxxxxx go on one.
    while (!common.empty() && common.size() < offers.front().name.size() &&
           (static_cast<unsigned char>(offers.front().name[common.size()]) & 0xC0U) == 0x80U)
        common.pop_back();
    std::string out = parted(path).first + common;
    if (offers.size() == 1 && offers.front().folder) out += '/';
    return out.size() >= path.size() ? out : path;
}

void update_offers(PathEntry& entry)
{
    if (entry.offers_for == entry.path && !entry.fresh) return;
    entry.offers = path_offers(entry.path, entry.extensions);
    entry.offers_for = entry.path;
}

PathAnswer show_path_entry(const Ui& ui, std::string_view name, PathEntry& entry, bool tab, bool enter)
{
    const std::string base{name};
    PathAnswer answer = PathAnswer::none;
    if (entry.fresh) ui.registry->focus(base + ".path");
    entry.fresh = false;
    const auto* note = ui.registry->find(base + ".path");
    // Looked at before the field is drawn, for Enter takes the keyboard from it.
    const bool in_field = note != nullptr && ImGui::GetCurrentContext()->ActiveId == note->id;
    text_field(ui, base + ".path", entry.path, room(ui), text::path_hint, text::path_why);
    paragraph(ui, text::path_why, Tint::quiet_ink);
    const auto retyped = [&](std::string path) {
        entry.path = std::move(path);
        if (note != nullptr) retype(note->id, entry.path);
    };
    if (in_field && tab) retyped(completed_path(entry.path, entry.offers));
    {
        const ChildGuard list{(base + ".offers").c_str(), {0.0F, offers_height(ui)}, true};
        if (entry.offers.empty()) paragraph(ui, text::path_empty_folder, Tint::quiet_ink);
        for (std::size_t i = 0; i < entry.offers.size(); ++i) {
            const auto& offer = entry.offers[i];
            const std::string item = fmt::format("{}.offer.{}", base, i);
            if (ImGui::Selectable(
                    fmt::format("{}{}###{}", offer.name, offer.folder ? "/" : "", item).c_str()))
                retyped(parted(entry.path).first + offer.name + (offer.folder ? "/" : ""));
            ui.registry->note(item, WidgetKind::item, base + ".offers");
        }
    }
    const DisabledGuard disabled{entry.path.empty() || entry.path.ends_with("/")};
    const bool ready = !entry.path.empty() && !entry.path.ends_with("/");
    if (button(ui, base + ".take", entry.save ? text::save : text::open, {}, Weight::chief) ||
        (enter && in_field && ready))
        answer = PathAnswer::taken;
    ImGui::SameLine();
    return answer;
}

} // namespace harpkeep::dashboard
