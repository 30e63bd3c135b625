// SPDX-License-Identifier: MIT
#include "ui/dashboard/fonts.hpp"

#include "base/expects.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>
#include <fontconfig/fontconfig.h>
#include <imgui.h>
#include <imgui_freetype.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>

namespace harpkeep::dashboard {

namespace {

// Latin-1, Latin Extended-A (Latin-2 lies within), dashes and quotes, superscripts, euro, arrows, minus and
// relations, shapes, flat natural sharp, check mark. Dear ImGui keeps the pointer: static.
constexpr std::array<ImWchar, 21> text_ranges{0x0020, 0x017F, 0x02DA, 0x02DA, 0x2010, 0x2027, 0x2030,
                                              0x2030, 0x20AC, 0x20AC, 0x2190, 0x2195, 0x2212, 0x2212,
                                              0x2248, 0x2265, 0x266D, 0x266F, 0x2713, 0x2713, 0};
// Names of strings and figures only: they are baked large.
constexpr std::array<ImWchar, 7> large_ranges{0x0020, 0x0047, 0x00B1, 0x00B1, 0x2212, 0x2212, 0};

// What a face must have, or another is taken.
constexpr std::array<FcChar32, 14> needed{U'A', U'é', U'ß',    U'ő',    U'ł',    U'ž',    U'€',
                                          U'±', U'–', 0x2212U, 0x266DU, 0x266EU, 0x266FU, 0x2192U};

struct Release {
    void operator()(FcPattern* p) const { FcPatternDestroy(p); }
    void operator()(FcFontSet* s) const { FcFontSetDestroy(s); }
    void operator()(FcCharSet* s) const { FcCharSetDestroy(s); }
};
using Pattern = std::unique_ptr<FcPattern, Release>;
using FontSet = std::unique_ptr<FcFontSet, Release>;
using CharSet = std::unique_ptr<FcCharSet, Release>;

std::optional<std::string> usable_file(FcPattern* font, const FcCharSet* wanted)
{
    FcCharSet* has = nullptr;
    FcChar8* file = nullptr;
    if (FcPatternGetCharSet(font, FC_CHARSET, 0, &has) != FcResultMatch) return std::nullopt;
    if (FcPatternGetString(font, FC_FILE, 0, &file) != FcResultMatch) return std::nullopt;
    std::string path = reinterpret_cast<const char*>(file);
    if (FcCharSetIsSubset(wanted, has) == FcFalse) return std::nullopt;
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) return std::nullopt;
    return path;
}

std::optional<std::string> find_face(int weight, const FcCharSet* wanted)
{
    const Pattern pattern{FcPatternCreate()};
    FcPatternAddString(pattern.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>("DejaVu Sans"));
    FcPatternAddString(pattern.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>("sans-serif"));
    FcPatternAddInteger(pattern.get(), FC_WEIGHT, weight);
    FcPatternAddInteger(pattern.get(), FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddInteger(pattern.get(), FC_WIDTH, FC_WIDTH_NORMAL);
    FcPatternAddBool(pattern.get(), FC_SCALABLE, FcTrue);
    FcConfigSubstitute(nullptr, pattern.get(), FcMatchPattern);
    FcDefaultSubstitute(pattern.get());

    FcResult result = FcResultNoMatch;
    const Pattern best{FcFontMatch(nullptr, pattern.get(), &result)};
    if (best)
        if (auto file = usable_file(best.get(), wanted)) return file;
    // The nearest face lacks a sign: take the nearest that has all.
    const FontSet sorted{FcFontSort(nullptr, pattern.get(), FcFalse, nullptr, &result)};
    if (!sorted) return std::nullopt;
    for (int i = 0; i < sorted->nfont; ++i)
        if (auto file = usable_file(sorted->fonts[i], wanted)) return file;
    return std::nullopt;
}

} // namespace

Result<FontFiles> find_fonts()
{
    if (FcInit() == FcFalse) return failure(ErrorCode::unavailable, text::fonts_unread);
    const CharSet wanted{FcCharSetCreate()};
    for (const FcChar32 sign : needed) FcCharSetAddChar(wanted.get(), sign);
    auto regular = find_face(FC_WEIGHT_REGULAR, wanted.get());
    if (!regular) return failure(ErrorCode::not_found, text::fonts_missing);
    auto bold = find_face(FC_WEIGHT_BOLD, wanted.get());
    return FontFiles{*regular, bold ? *bold : *regular};
}

Fonts load_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale)
{
    HARPKEEP_EXPECTS(scale > 0.0F && !atlas.Locked);
    atlas.Clear();
    atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    atlas.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    const auto add = [&](const std::string& file, float pixels, const ImWchar* ranges) {
        ImFontConfig config;
        config.OversampleH = 1;
        config.OversampleV = 1;
        return atlas.AddFontFromFileTTF(file.c_str(), pixels, &config, ranges);
    };
    const float body = std::round(body_pixels * scale);
    Fonts fonts;
    fonts.body = add(files.regular, body, text_ranges.data());
    fonts.bold = add(files.bold, body, text_ranges.data());
    fonts.heading = add(files.bold, std::round(1.35F * body), text_ranges.data());
    fonts.small = add(files.regular, std::round(0.75F * body), text_ranges.data());
    fonts.display = add(files.bold, std::round(2.2F * body), text_ranges.data());
    fonts.large = add(files.bold, std::min(std::round(9.0F * body), 320.0F), large_ranges.data());
    return fonts;
}

} // namespace harpkeep::dashboard
