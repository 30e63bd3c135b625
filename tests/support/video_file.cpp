// SPDX-License-Identifier: MIT
#include "tests/support/video_file.hpp"

#include "audio/ffmpeg_support.hpp"

#include <algorithm>
#include <cstring>
#include <stdexcept>

namespace harpkeep::tests {

namespace {

constexpr int pictures = 60;
constexpr int pictures_per_s = 2;

void must(int result)
{
    if (result < 0) throw std::runtime_error(ffmpeg::describe(result));
}

/// One stream with its encoder.
struct Track {
    ffmpeg::CodecPointer codec;
    AVStream* stream = nullptr;

    void start(AVFormatContext& output, AVCodecID id)
    {
        const AVCodec* encoder = avcodec_find_encoder(id);
        if (encoder == nullptr) throw std::runtime_error("no encoder");
        codec.reset(avcodec_alloc_context3(encoder));
        if ((output.oformat->flags & AVFMT_GLOBALHEADER) != 0) codec->flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
        stream = avformat_new_stream(&output, nullptr);
    }
    void open()
    {
        must(avcodec_open2(codec.get(), nullptr, nullptr));
        must(avcodec_parameters_from_context(stream->codecpar, codec.get()));
        stream->time_base = codec->time_base;
    }
    void send(AVFormatContext& output, const AVFrame* frame)
    {
        const ffmpeg::PacketPointer packet(av_packet_alloc());
        must(avcodec_send_frame(codec.get(), frame));
        while (avcodec_receive_packet(codec.get(), packet.get()) >= 0) {
            av_packet_rescale_ts(packet.get(), codec->time_base, stream->time_base);
            packet->stream_index = stream->index;
            must(av_interleaved_write_frame(&output, packet.get()));
        }
    }
};

void send_picture(Track& video, AVFormatContext& output, int number)
{
    const ffmpeg::FramePointer frame(av_frame_alloc());
    frame->format = AV_PIX_FMT_YUV420P;
    frame->width = frame->height = 64;
    frame->pts = number;
    must(av_frame_get_buffer(frame.get(), 0));
    for (int plane = 0; plane < 3; ++plane)
        std::memset(frame->data[plane], 128,
                    static_cast<std::size_t>(frame->linesize[plane]) * (plane == 0 ? 64 : 32));
    video.send(output, frame.get());
}

void send_sound(Track& audio, AVFormatContext& output, std::span<const float> sound, std::size_t first)
{
    const auto length = static_cast<std::size_t>(audio.codec->frame_size);
    const ffmpeg::FramePointer frame(av_frame_alloc());
    frame->format = AV_SAMPLE_FMT_FLTP;
    frame->sample_rate = audio.codec->sample_rate;
    frame->nb_samples = static_cast<int>(std::min(length, sound.size() - first));
    frame->pts = static_cast<std::int64_t>(first);
    must(av_channel_layout_copy(&frame->ch_layout, &audio.codec->ch_layout));
    must(av_frame_get_buffer(frame.get(), 0));
    std::copy_n(sound.begin() + static_cast<std::ptrdiff_t>(first), frame->nb_samples,
                reinterpret_cast<float*>(frame->data[0]));
    audio.send(output, frame.get());
}

} // namespace

void write_video(const std::string& path, std::span<const float> sound)
{
    ffmpeg::catch_log();
    AVFormatContext* output = nullptr;
    must(avformat_alloc_output_context2(&output, nullptr, nullptr, path.c_str()));
    Track video, audio;
    video.start(*output, AV_CODEC_ID_MPEG4);
    video.codec->width = video.codec->height = 64;
    video.codec->pix_fmt = AV_PIX_FMT_YUV420P;
    video.codec->time_base = {1, pictures_per_s};
    video.open();
    if (!sound.empty()) {
        audio.start(*output, AV_CODEC_ID_AAC);
        audio.codec->sample_rate = 48000;
        audio.codec->sample_fmt = AV_SAMPLE_FMT_FLTP;
        audio.codec->bit_rate = 128000;
        audio.codec->time_base = {1, 48000};
        av_channel_layout_default(&audio.codec->ch_layout, 1);
        audio.open();
    }
    must(avio_open(&output->pb, path.c_str(), AVIO_FLAG_WRITE));
    must(avformat_write_header(output, nullptr));
    for (int picture = 0; picture < pictures; ++picture) send_picture(video, *output, picture);
    video.send(*output, nullptr);
    if (!sound.empty()) {
        const auto length = static_cast<std::size_t>(audio.codec->frame_size);
        for (std::size_t first = 0; first < sound.size(); first += length)
            send_sound(audio, *output, sound, first);
        audio.send(*output, nullptr);
    }
    must(av_write_trailer(output));
    avio_closep(&output->pb);
    avformat_free_context(output);
}

} // namespace harpkeep::tests
