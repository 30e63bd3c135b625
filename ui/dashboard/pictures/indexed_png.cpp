// SPDX-License-Identifier: MIT
#include "ui/dashboard/pictures/indexed_png.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>
#include <png.h>

#include <algorithm>
#include <array>
#include <unordered_map>

namespace harpkeep::dashboard {

namespace {

constexpr std::size_t most_colours = 256;

struct Counted {
    std::uint32_t rgb = 0;
    std::uint64_t pixels = 0;
};
using Box = std::vector<Counted>;

std::uint32_t channel(std::uint32_t rgb, int index)
{
    return rgb >> (16 - 8 * index) & 0xFFU;
}

/// The channel in which a box is widest, and how wide.
std::pair<int, std::uint32_t> widest(const Box& box)
{
    std::pair<int, std::uint32_t> best{0, 0};
    for (int c = 0; c < 3; ++c) {
        const auto [low, high] =
            std::minmax_element(box.begin(), box.end(), [c](const auto& a, const auto& b) {
                return channel(a.rgb, c) < channel(b.rgb, c);
            });
        const std::uint32_t width = channel(high->rgb, c) - channel(low->rgb, c);
        if (width > best.second) best = {c, width};
    }
    return best;
}

Box cut_at_median(Box& box)
{
    const int c = widest(box).first;
    std::sort(box.begin(), box.end(), [c](const auto& a, const auto& b) {
        return std::pair{channel(a.rgb, c), a.rgb} < std::pair{channel(b.rgb, c), b.rgb};
    });
    std::uint64_t all = 0, below = 0;
    for (const auto& colour : box) all += colour.pixels;
    std::size_t at = 0;
    while (at + 1 < box.size() && 2 * (below + box[at].pixels) <= all) below += box[at++].pixels;
    at = std::clamp<std::size_t>(at, 1, box.size() - 1);
    Box upper{box.begin() + static_cast<std::ptrdiff_t>(at), box.end()};
    box.resize(at);
    return upper;
}

std::uint32_t mean_of(const Box& box)
{
    std::array<std::uint64_t, 3> sum{};
    std::uint64_t pixels = 0;
    // The commonest colour of a box is a ground or an ink: it stays as it is.
    const auto common = std::max_element(box.begin(), box.end(),
                                         [](const auto& a, const auto& b) { return a.pixels < b.pixels; });
    for (const auto& colour : box) {
        pixels += colour.pixels;
        for (int c = 0; c < 3; ++c)
            sum[static_cast<std::size_t>(c)] += colour.pixels * channel(colour.rgb, c);
    }
    if (2 * common->pixels >= pixels) return common->rgb;
    std::uint32_t rgb = 0;
    for (const auto s : sum) rgb = rgb << 8U | static_cast<std::uint32_t>((s + pixels / 2) / pixels);
    return rgb;
}

std::uint32_t rgb_at(std::span<const std::uint8_t> rgba, std::size_t pixel)
{
    const auto* p = &rgba[4 * pixel];
    return static_cast<std::uint32_t>(p[0]) << 16U | static_cast<std::uint32_t>(p[1]) << 8U | p[2];
}

} // namespace

ColourTable chosen_colours(std::span<const std::uint8_t> rgba)
{
    HARPKEEP_EXPECTS(!rgba.empty() && rgba.size() % 4 == 0);
    std::unordered_map<std::uint32_t, std::uint64_t> counts;
    for (std::size_t i = 0; i < rgba.size() / 4; ++i) ++counts[rgb_at(rgba, i)];
    Box all;
    for (const auto& [rgb, pixels] : counts) all.push_back({rgb, pixels});
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.rgb < b.rgb; });
    std::vector<Box> boxes{std::move(all)};
    while (boxes.size() < most_colours) {
        const auto wide = std::max_element(boxes.begin(), boxes.end(), [](const Box& a, const Box& b) {
            return widest(a).second < widest(b).second;
        });
        if (wide->size() < 2) break;
        Box upper = cut_at_median(*wide);
        boxes.push_back(std::move(upper));
    }
    ColourTable table;
    std::unordered_map<std::uint32_t, std::uint8_t> index;
    for (std::size_t b = 0; b < boxes.size(); ++b) {
        table.colours.push_back(mean_of(boxes[b]));
        for (const auto& colour : boxes[b]) index[colour.rgb] = static_cast<std::uint8_t>(b);
    }
    for (std::size_t i = 0; i < rgba.size() / 4; ++i) table.pixels.push_back(index[rgb_at(rgba, i)]);
    return table;
}

Result<std::string> indexed_png(std::span<const std::uint8_t> rgba, int width, int height)
{
    HARPKEEP_EXPECTS(width > 0 && height > 0 &&
                     rgba.size() == static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4);
    const auto table = chosen_colours(rgba);
    std::vector<std::uint8_t> map;
    for (const auto rgb : table.colours)
        for (int c = 0; c < 3; ++c) map.push_back(static_cast<std::uint8_t>(channel(rgb, c)));
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(width);
    image.height = static_cast<png_uint_32>(height);
    image.format = PNG_FORMAT_RGB_COLORMAP;
    image.colormap_entries = static_cast<png_uint_32>(table.colours.size());
    png_alloc_size_t bytes = 0;
    std::string out;
    if (png_image_write_to_memory(&image, nullptr, &bytes, 0, table.pixels.data(), 0, map.data()) != 0) {
        out.resize(bytes);
        if (png_image_write_to_memory(&image, out.data(), &bytes, 0, table.pixels.data(), 0, map.data()) !=
            0) {
            out.resize(bytes);
            return out;
        }
    }
    return failure(ErrorCode::unavailable, fmt::format("making a PNG picture: {}", image.message));
}

} // namespace harpkeep::dashboard
