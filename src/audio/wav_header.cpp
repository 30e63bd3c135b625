// SPDX-License-Identifier: MIT
#include "audio/wav_header.hpp"

#include <array>
#include <cstdint>
#include <cstring>
#include <fstream>

namespace harpkeep {

namespace {

constexpr std::uint32_t unknown_length = 0xffffffff; // streams, and RF64, which keeps the length elsewhere
constexpr int most_chunks = 100;

std::uint32_t little_endian(const char* bytes)
{
    std::uint32_t value = 0;
    for (int i = 3; i >= 0; --i) value = (value << 8) | static_cast<unsigned char>(bytes[i]);
    return value;
}

} // namespace

std::optional<double> promised_duration_of_wav_s(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    std::array<char, 12> riff{};
    if (!file.read(riff.data(), riff.size()) || std::memcmp(riff.data(), "RIFF", 4) != 0 ||
        std::memcmp(riff.data() + 8, "WAVE", 4) != 0)
        return std::nullopt;
    double bytes_per_s = 0.0;
    for (int chunk = 0; chunk < most_chunks; ++chunk) {
        std::array<char, 8> head{};
        if (!file.read(head.data(), head.size())) return std::nullopt;
        const std::uint32_t length = little_endian(head.data() + 4);
        if (std::memcmp(head.data(), "data", 4) == 0) {
            if (length == 0 || length == unknown_length || bytes_per_s <= 0.0) return std::nullopt;
            return length / bytes_per_s;
        }
        std::array<char, 16> format{};
        std::streamoff used = 0;
        if (std::memcmp(head.data(), "fmt ", 4) == 0 && length >= format.size()) {
            if (!file.read(format.data(), format.size())) return std::nullopt;
            bytes_per_s = little_endian(format.data() + 8);
            used = static_cast<std::streamoff>(format.size());
        }
        file.seekg(static_cast<std::streamoff>(length) + (length & 1U) - used, std::ios::cur);
    }
    return std::nullopt;
}

} // namespace harpkeep
