// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <string>

struct ImFont;
struct ImFontAtlas;

namespace harpkeep::dashboard {

/// Files of the two faces the window writes in.
struct FontFiles {
    std::string regular;
    std::string bold;
};

/// Asks fontconfig for a face that has every sign the window needs (Latin, Latin-2, flat, natural, sharp,
/// arrows).
///
/// Returns  the files, each there and readable; or which sign no installed font has, and what to install
[[nodiscard]] Result<FontFiles> find_fonts();

/// The faces as loaded into an atlas, at the sizes of one scale.
struct Fonts {
    ImFont* body = nullptr;
    ImFont* bold = nullptr;
    ImFont* heading = nullptr;
    ImFont* small = nullptr;   ///< labels of pictures
    ImFont* display = nullptr; ///< sentences to be read from two metres
    ImFont* large = nullptr;   ///< names of strings and figures to be read from two metres; few signs
};

/// Size of body text in pixels at scale 1.
inline constexpr float body_pixels = 16.0F;

/// Fills the atlas anew. Not between NewFrame and Render.
///
/// Given  scale  pixels of the display for each unit of design: display scale times the user's font scale
[[nodiscard]] Fonts load_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale);

} // namespace harpkeep::dashboard
