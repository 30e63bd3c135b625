// SPDX-License-Identifier: MIT
#include "audio/sound_writer.hpp"

#include "audio/ffmpeg_support.hpp"
#include "audio/sample_conversion.hpp"
#include "base/expects.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <string_view>
#include <vector>

namespace harpkeep {

namespace {

constexpr int frames_at_once = 4096; // for encoders that take any length

struct Kind {
    std::string_view ending;
    AVCodecID codec;
    int highest_bits; ///< 0: lossy
};
constexpr std::array<Kind, 10> kinds{{{".flac", AV_CODEC_ID_FLAC, 24},
                                      {".wav", AV_CODEC_ID_PCM_S16LE, 32},
                                      {".aiff", AV_CODEC_ID_PCM_S16BE, 32},
                                      {".caf", AV_CODEC_ID_PCM_S16BE, 32},
                                      {".m4a", AV_CODEC_ID_AAC, 0},
                                      {".mp4", AV_CODEC_ID_AAC, 0},
                                      {".mov", AV_CODEC_ID_AAC, 0},
                                      {".ogg", AV_CODEC_ID_VORBIS, 0},
                                      {".opus", AV_CODEC_ID_OPUS, 0},
                                      {".mp3", AV_CODEC_ID_MP3, 0}}};

/// The coding of a kind at a resolution: plain samples have one codec for each.
AVCodecID codec_for(const Kind& kind, int bits)
{
    if (kind.codec == AV_CODEC_ID_PCM_S16LE)
        return bits == 16   ? AV_CODEC_ID_PCM_S16LE
               : bits == 24 ? AV_CODEC_ID_PCM_S24LE
                            : AV_CODEC_ID_PCM_S32LE;
    if (kind.codec == AV_CODEC_ID_PCM_S16BE)
        return bits == 16   ? AV_CODEC_ID_PCM_S16BE
               : bits == 24 ? AV_CODEC_ID_PCM_S24BE
                            : AV_CODEC_ID_PCM_S32BE;
    return kind.codec;
}

/// The encoder's format that keeps the resolution with the least waste.
AVSampleFormat format_for(const AVCodec& encoder, int bits)
{
    AVSampleFormat chosen = AV_SAMPLE_FMT_NONE;
    for (const AVSampleFormat* format = encoder.sample_fmts; *format != AV_SAMPLE_FMT_NONE; ++format) {
        const AVSampleFormat packed = av_get_packed_sample_fmt(*format);
        if (packed == AV_SAMPLE_FMT_U8 || packed == AV_SAMPLE_FMT_S64 || !ffmpeg::is_convertible(*format))
            continue;
        const bool wide_enough = packed == AV_SAMPLE_FMT_S16 ? bits == 16 : true;
        if (wide_enough && (chosen == AV_SAMPLE_FMT_NONE || packed == AV_SAMPLE_FMT_S16)) chosen = *format;
    }
    return chosen;
}

struct CloseOutput {
    void operator()(AVFormatContext* context) const
    {
        if (context->pb != nullptr) avio_closep(&context->pb);
        avformat_free_context(context);
    }
};

} // namespace

struct SoundWriter::Encoder {
    std::string path;
    int channels = 1;
    int bits = 24;
    std::unique_ptr<AVFormatContext, CloseOutput> output;
    ffmpeg::CodecPointer codec;
    ffmpeg::PacketPointer packet{av_packet_alloc()};
    ffmpeg::FramePointer frame{av_frame_alloc()};
    std::vector<float> pending; ///< interleaved, less than one frame of the codec
    std::size_t frame_length = frames_at_once;
    std::uint64_t position = 0;
    std::int64_t sent = 0;
    bool finished = false;

    Result<void> open(const Kind& kind, const SoundWriterSettings& settings);
    Result<void> encode(const float* interleaved, std::size_t count);
    Result<void> pass_on(const AVFrame* input);
    Result<void> finish();
    [[nodiscard]] tl::unexpected<Error> write_failure(int error) const
    {
        return failure(ErrorCode::unavailable,
                       fmt::format("writing {} failed after {:.1f} s of sound: {}; free space on the disk or "
                                   "choose another folder",
                                   path, static_cast<double>(position) / codec->sample_rate,
                                   ffmpeg::describe(error)));
    }
};

Result<void> SoundWriter::Encoder::open(const Kind& kind, const SoundWriterSettings& settings)
{
    const AVCodec* encoder = avcodec_find_encoder(codec_for(kind, settings.bits_per_sample));
    if (encoder == nullptr)
        return failure(ErrorCode::unavailable,
                       fmt::format("this computer's FFmpeg cannot write {} files; use .flac", kind.ending));
    codec.reset(avcodec_alloc_context3(encoder));
    HARPKEEP_EXPECTS(codec != nullptr && packet != nullptr && frame != nullptr); // out of memory
    codec->sample_rate = settings.sample_rate_hz;
    codec->time_base = {1, settings.sample_rate_hz};
    codec->sample_fmt = format_for(*encoder, settings.bits_per_sample);
    codec->thread_count = 1; // the log of a thread stays with that thread
    av_channel_layout_default(&codec->ch_layout, settings.channels);
    if (kind.highest_bits == 0)
        codec->bit_rate = std::int64_t{settings.channels} * std::min(160000, 3 * settings.sample_rate_hz);
    else
        codec->bits_per_raw_sample = settings.bits_per_sample;

    AVFormatContext* context = nullptr;
    int result = avformat_alloc_output_context2(&context, nullptr, nullptr, path.c_str());
    output.reset(context);
    if (result >= 0 && (context->oformat->flags & AVFMT_GLOBALHEADER) != 0)
        codec->flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
    if (result >= 0) result = avcodec_open2(codec.get(), encoder, nullptr);
    if (result < 0)
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("a {} file with {} channels at {} Hz cannot be written: {}; use .flac with 1 or 2 "
                        "channels at 48000 Hz",
                        kind.ending, settings.channels, settings.sample_rate_hz, ffmpeg::describe(result)));
    AVStream* stream = avformat_new_stream(context, nullptr);
    HARPKEEP_EXPECTS(stream != nullptr); // out of memory
    stream->time_base = codec->time_base;
    result = avcodec_parameters_from_context(stream->codecpar, codec.get());
    if (result >= 0) result = avio_open(&context->pb, ffmpeg::file_url(path).c_str(), AVIO_FLAG_WRITE);
    if (result >= 0) result = avformat_write_header(context, nullptr);
    if (result < 0)
        return failure(ErrorCode::unavailable,
                       fmt::format("cannot write {}: {}; choose a folder that you may write to", path,
                                   ffmpeg::describe(result)));
    if (codec->frame_size > 0) frame_length = static_cast<std::size_t>(codec->frame_size);
    return {};
}

Result<void> SoundWriter::Encoder::encode(const float* interleaved, std::size_t count)
{
    av_frame_unref(frame.get());
    frame->nb_samples = static_cast<int>(count);
    frame->format = codec->sample_fmt;
    frame->sample_rate = codec->sample_rate;
    int result = av_channel_layout_copy(&frame->ch_layout, &codec->ch_layout);
    if (result >= 0) result = av_frame_get_buffer(frame.get(), 0);
    if (result < 0) return write_failure(result);
    ffmpeg::copy_from_floats(interleaved, channels, count, bits, *frame);
    frame->pts = sent;
    sent += static_cast<std::int64_t>(count);
    return pass_on(frame.get());
}

/// Sends a frame, or with nullptr the end, and writes what comes out.
Result<void> SoundWriter::Encoder::pass_on(const AVFrame* input)
{
    int result = avcodec_send_frame(codec.get(), input);
    while (result >= 0) {
        result = avcodec_receive_packet(codec.get(), packet.get());
        if (result == AVERROR(EAGAIN) || result == AVERROR_EOF) return {};
        if (result < 0) break;
        av_packet_rescale_ts(packet.get(), codec->time_base, output->streams[0]->time_base);
        packet->stream_index = 0;
        result = av_write_frame(output.get(), packet.get());
        av_packet_unref(packet.get());
        if (result >= 0 && output->pb->error < 0) result = output->pb->error;
    }
    return write_failure(result);
}

Result<void> SoundWriter::Encoder::finish()
{
    if (finished) return {};
    finished = true;
    if (!pending.empty()) {
        const auto written = encode(pending.data(), pending.size() / static_cast<std::size_t>(channels));
        pending.clear();
        if (!written) return written;
    }
    if (const auto drained = pass_on(nullptr); !drained) return drained;
    int result = av_write_trailer(output.get());
    const int closed = avio_closep(&output->pb);
    if (result >= 0) result = closed;
    if (result < 0) return write_failure(result);
    return {};
}

SoundWriter::SoundWriter(std::unique_ptr<Encoder> encoder) : encoder_(std::move(encoder)) {}
SoundWriter::SoundWriter(SoundWriter&&) noexcept = default;
SoundWriter& SoundWriter::operator=(SoundWriter&&) noexcept = default;
SoundWriter::~SoundWriter()
{
    if (encoder_ != nullptr) static_cast<void>(encoder_->finish());
}

Result<SoundWriter> SoundWriter::create(const std::string& path, const SoundWriterSettings& settings)
{
    HARPKEEP_EXPECTS(settings.sample_rate_hz > 0 && settings.channels > 0);
    HARPKEEP_EXPECTS(settings.bits_per_sample == 16 || settings.bits_per_sample == 24 ||
                     settings.bits_per_sample == 32);
    ffmpeg::catch_log();
    std::string ending = std::filesystem::path(path).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    const auto* kind =
        std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.ending == ending; });
    if (kind == kinds.end())
        return failure(ErrorCode::invalid_argument,
                       fmt::format("{} has no ending that says what to write; use .flac", path));
    auto encoder = std::make_unique<Encoder>();
    encoder->path = path;
    encoder->channels = settings.channels;
    encoder->bits = kind->highest_bits == 0 ? 32 : std::min(settings.bits_per_sample, kind->highest_bits);
    if (const auto opened = encoder->open(*kind, settings); !opened) {
        encoder->finished = true; // nothing to write at its end
        return failure(opened.error());
    }
    return SoundWriter(std::move(encoder));
}

Result<void> SoundWriter::write(std::span<const float> interleaved)
{
    Encoder& e = *encoder_;
    const auto channels = static_cast<std::size_t>(e.channels);
    HARPKEEP_EXPECTS(interleaved.size() % channels == 0 && !e.finished);
    const std::size_t whole = e.frame_length * channels;
    std::size_t used = 0;
    while (used < interleaved.size()) {
        const std::size_t count = std::min(whole - e.pending.size(), interleaved.size() - used);
        const auto* first = interleaved.data() + used;
        e.pending.insert(e.pending.end(), first, first + count);
        used += count;
        e.position += count / channels;
        if (e.pending.size() < whole) break;
        const auto written = e.encode(e.pending.data(), e.frame_length);
        e.pending.clear();
        if (!written) return written;
    }
    return {};
}

Result<void> SoundWriter::finish()
{
    return encoder_->finish();
}

std::uint64_t SoundWriter::position() const
{
    return encoder_->position;
}

} // namespace harpkeep
