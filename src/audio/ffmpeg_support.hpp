// SPDX-License-Identifier: MIT
#pragma once

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/channel_layout.h>
}

#include <memory>
#include <string>

/// Owners of FFmpeg's objects and its messages; for the source files of this folder only.
namespace harpkeep::ffmpeg {

struct CloseInput {
    void operator()(AVFormatContext* context) const { avformat_close_input(&context); }
};
struct FreeCodec {
    void operator()(AVCodecContext* context) const { avcodec_free_context(&context); }
};
struct FreePacket {
    void operator()(AVPacket* packet) const { av_packet_free(&packet); }
};
struct FreeFrame {
    void operator()(AVFrame* frame) const { av_frame_free(&frame); }
};
using InputPointer = std::unique_ptr<AVFormatContext, CloseInput>;
using CodecPointer = std::unique_ptr<AVCodecContext, FreeCodec>;
using PacketPointer = std::unique_ptr<AVPacket, FreePacket>;
using FramePointer = std::unique_ptr<AVFrame, FreeFrame>;

/// Keeps FFmpeg's log off the terminal; its last error line is kept for each thread. Call before any other
/// use.
void catch_log();
void forget_last_message();

/// What the library says about a returned error, with its last log line when there is one.
[[nodiscard]] std::string describe(int error);

/// "file:PATH": so that no name can be taken for a protocol.
[[nodiscard]] std::string file_url(const std::string& path);

} // namespace harpkeep::ffmpeg
