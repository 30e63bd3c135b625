// SPDX-License-Identifier: MIT
#include "records/display_width.hpp"

#include <utf8proc.h>

namespace harpkeep {

std::size_t display_width(std::string_view text)
{
    std::size_t width = 0;
    while (!text.empty()) {
        utf8proc_int32_t codepoint = 0;
        const auto length = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                             static_cast<utf8proc_ssize_t>(text.size()), &codepoint);
        width += length > 0 ? static_cast<std::size_t>(utf8proc_charwidth(codepoint)) : 1;
        text.remove_prefix(length > 0 ? static_cast<std::size_t>(length) : 1);
    }
    return width;
}

} // namespace harpkeep
