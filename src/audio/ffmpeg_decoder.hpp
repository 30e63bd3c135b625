// SPDX-License-Identifier: MIT
#pragma once

#include "audio/ffmpeg_support.hpp"
#include "audio/sound_file.hpp"

namespace harpkeep::ffmpeg {

/// Opens the best audio stream of a file and hands out one decoded frame after another; SoundFile copies from
/// it.
struct Decoder {
    std::string path;
    SoundFileInfo info;
    InputPointer input;
    CodecPointer codec;
    PacketPointer packet{av_packet_alloc()};
    FramePointer frame{av_frame_alloc()};
    int stream_index = -1;
    std::size_t frame_used = 0;   ///< frames of `frame` handed out
    std::size_t frame_length = 0; ///< frames in `frame`
    std::uint64_t silence = 0;    ///< frames of silence to hand out before `frame`
    std::uint64_t position = 0;
    std::optional<double> next_time_s; ///< when the next frame should start, by the container
    bool input_ended = false, ended = false;
    int damaged_pieces = 0;
    double first_damage_s = 0.0;
    double missing_s = 0.0, first_missing_s = 0.0;
    std::vector<std::string> remarks;
    std::optional<Error> failed; ///< the system could not read on

    Result<void> open_input();
    Result<void> open_codec();
    Result<void> read_first_frame();
    [[nodiscard]] AVStream& stream() const { return *input->streams[stream_index]; }
    void describe_file();
    void advance();
    bool feed();
    void take_frame();
    void bridge_gap();
    void note_damage();
    void finish();
};

} // namespace harpkeep::ffmpeg
