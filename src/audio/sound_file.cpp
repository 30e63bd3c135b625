// SPDX-License-Identifier: MIT
#include "audio/sound_file.hpp"

#include "audio/ffmpeg_decoder.hpp"
#include "audio/sample_conversion.hpp"
#include "base/expects.hpp"

#include <algorithm>
#include <cerrno>
#include <fmt/format.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace harpkeep {

namespace {

/// Everything that can be known without looking inside.
Result<void> expect_readable_file(const std::string& path)
{
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) {
        const int reason = errno;
        const bool missing = reason == ENOENT || reason == ENOTDIR;
        return failure(missing ? ErrorCode::not_found : ErrorCode::unavailable,
                       fmt::format("cannot open {}: {}; check the name and the folder", path,
                                   std::generic_category().message(reason)));
    }
    if (S_ISDIR(status.st_mode))
        return failure(ErrorCode::unusable_input,
                       fmt::format("{} is a folder; name a recording in it", path));
    if (!S_ISREG(status.st_mode))
        return failure(ErrorCode::unusable_input,
                       fmt::format("{} is no ordinary file; save the recording to a file first", path));
    if (::access(path.c_str(), R_OK) != 0)
        return failure(ErrorCode::unavailable,
                       fmt::format("cannot read {}: {}; ask its owner for leave to read it", path,
                                   std::generic_category().message(errno)));
    if (status.st_size == 0)
        return failure(ErrorCode::unusable_input,
                       fmt::format("{} is empty (0 bytes): the recording was not saved or not copied; "
                                   "copy or record it again",
                                   path));
    return {};
}

} // namespace

std::string readable_kinds()
{
    return "wav, flac, ogg, opus, mp3, m4a, aiff, caf, or a video (mp4, mov, mkv, webm) with sound";
}

SoundFile::SoundFile(std::unique_ptr<ffmpeg::Decoder> decoder) : decoder_(std::move(decoder)) {}
SoundFile::SoundFile(SoundFile&&) noexcept = default;
SoundFile& SoundFile::operator=(SoundFile&&) noexcept = default;
SoundFile::~SoundFile() = default;

Result<SoundFile> SoundFile::open(const std::string& path)
{
    ffmpeg::catch_log();
    if (const auto readable = expect_readable_file(path); !readable) return failure(readable.error());
    auto decoder = std::make_unique<ffmpeg::Decoder>();
    decoder->path = path;
    if (const auto opened = decoder->open_input(); !opened) return failure(opened.error());
    if (const auto opened = decoder->open_codec(); !opened) return failure(opened.error());
    if (const auto first = decoder->read_first_frame(); !first) return failure(first.error());
    return SoundFile(std::move(decoder));
}

const SoundFileInfo& SoundFile::info() const
{
    return decoder_->info;
}

std::uint64_t SoundFile::position() const
{
    return decoder_->position;
}

std::vector<std::string> SoundFile::remarks() const
{
    return decoder_->remarks;
}

Result<std::size_t> SoundFile::read(std::span<float> interleaved)
{
    ffmpeg::Decoder& d = *decoder_;
    const auto channels = static_cast<std::size_t>(d.info.channels);
    const std::size_t wanted = interleaved.size() / channels;
    HARPKEEP_EXPECTS(wanted > 0);
    std::size_t done = 0;
    while (done < wanted) {
        if (d.silence > 0) {
            const auto count = static_cast<std::size_t>(std::min<std::uint64_t>(d.silence, wanted - done));
            std::fill_n(interleaved.begin() + static_cast<std::ptrdiff_t>(done * channels), count * channels,
                        0.0F);
            d.silence -= count;
            d.position += count;
            done += count;
        } else if (d.frame_used < d.frame_length) {
            const std::size_t count = std::min(d.frame_length - d.frame_used, wanted - done);
            ffmpeg::copy_to_floats(*d.frame, d.info.channels, d.frame_used, count,
                                   &interleaved[done * channels]);
            d.frame_used += count;
            d.position += count;
            done += count;
        } else if (d.ended) {
            break;
        } else {
            d.advance();
            if (d.failed) return failure(*d.failed);
        }
    }
    return done;
}

} // namespace harpkeep
