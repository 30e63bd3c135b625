// SPDX-License-Identifier: MIT
#include "audio/ffmpeg_decoder.hpp"

#include "audio/sample_conversion.hpp"
#include "audio/wav_header.hpp"
#include "base/expects.hpp"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep::ffmpeg {

namespace {

constexpr const char* demuxers =
    "wav,w64,flac,ogg,mp3,aac,mov,mp4,m4a,3gp,3g2,mj2,aiff,caf,au,amr,matroska,webm,asf,avi,mpegts";
constexpr int lowest_rate_hz = 4000;
constexpr int highest_rate_hz = 768000;
constexpr int most_channels = 64;
constexpr double shortest_gap_s = 0.05; // shorter jumps of the time stamps are rounding of the container
constexpr double longest_gap_s = 60.0;  // longer ones are damage to the time stamps themselves
constexpr int most_idle_reads = 1000;

struct EndDictionary {
    void operator()(AVDictionary* dictionary) const { av_dict_free(&dictionary); }
};

} // namespace

Result<void> Decoder::open_input()
{
    AVDictionary* options = nullptr;
    av_dict_set(&options, "format_whitelist", demuxers, 0);
    av_dict_set(&options, "protocol_whitelist", "file", 0);
    AVFormatContext* context = nullptr;
    const int opened = avformat_open_input(&context, file_url(path).c_str(), nullptr, &options);
    const std::unique_ptr<AVDictionary, EndDictionary> unused(options);
    input.reset(context);
    if (opened < 0)
        return failure(
            opened == AVERROR(EACCES) ? ErrorCode::unavailable : ErrorCode::unusable_input,
            fmt::format(
                "{} is not a recording that can be read, or was cut off when it was copied: {}; use {}", path,
                describe(opened), readable_kinds()));
    const int probed = avformat_find_stream_info(context, nullptr);
    if (probed < 0)
        return failure(ErrorCode::unusable_input, fmt::format("the streams of {} cannot be read: {}; use {}",
                                                              path, describe(probed), readable_kinds()));
    stream_index = av_find_best_stream(context, AVMEDIA_TYPE_AUDIO, -1, -1, nullptr, 0);
    if (stream_index < 0)
        return failure(
            ErrorCode::unusable_input,
            fmt::format("{} has no sound in it: was the microphone off? Use {}", path, readable_kinds()));
    for (unsigned i = 0; i < context->nb_streams; ++i)
        context->streams[i]->discard =
            static_cast<int>(i) == stream_index ? AVDISCARD_DEFAULT : AVDISCARD_ALL;
    return {};
}

Result<void> Decoder::open_codec()
{
    const AVCodecParameters& parameters = *stream().codecpar;
    const AVCodec* decoder = avcodec_find_decoder(parameters.codec_id);
    if (decoder == nullptr)
        return failure(ErrorCode::unusable_input,
                       fmt::format("the sound of {} is in a coding that cannot be read ({}); it may be "
                                   "copy-protected. Export it as {}",
                                   path, avcodec_get_name(parameters.codec_id), readable_kinds()));
    codec.reset(avcodec_alloc_context3(decoder));
    HARPKEEP_EXPECTS(codec != nullptr && packet != nullptr &&
                     frame != nullptr); // out of memory: nothing to save
    int opened = avcodec_parameters_to_context(codec.get(), &parameters);
    codec->pkt_timebase = stream().time_base;
    codec->thread_count = 1; // the log of a thread stays with that thread
    if (opened >= 0) opened = avcodec_open2(codec.get(), decoder, nullptr);
    if (opened < 0)
        return failure(ErrorCode::unusable_input,
                       fmt::format("the {} sound of {} cannot be decoded: {}; export it as {}",
                                   avcodec_get_name(parameters.codec_id), path, describe(opened),
                                   readable_kinds()));
    return {};
}

/// The first frame knows the true rate and channels; headers of AAC may name half the rate.
Result<void> Decoder::read_first_frame()
{
    frame_length = 0;
    silence = 0;
    while (frame_length == 0 && !ended) advance();
    if (frame_length == 0)
        return failure(ErrorCode::unusable_input,
                       fmt::format("{} holds no sound that can be decoded ({}): it is cut off, damaged or "
                                   "copy-protected. Copy it again, or export it as {}",
                                   path, avcodec_get_name(codec->codec_id), readable_kinds()));
    describe_file();
    const auto format = static_cast<AVSampleFormat>(frame->format);
    if (frame->sample_rate < lowest_rate_hz || frame->sample_rate > highest_rate_hz || info.channels < 1 ||
        info.channels > most_channels || !is_convertible(format))
        return failure(
            ErrorCode::unusable_input,
            fmt::format("{} says that it has {} channels at {} Hz, which cannot be used; export it "
                        "with 1 or 2 channels at 44100 or 48000 Hz",
                        path, info.channels, frame->sample_rate));
    return {};
}

void Decoder::describe_file()
{
    info.container = input->iformat->name;
    info.codec = avcodec_get_name(codec->codec_id);
    info.sample_rate_hz = frame->sample_rate;
    info.channels = frame->ch_layout.nb_channels;
    const AVCodecDescriptor* descriptor = avcodec_descriptor_get(codec->codec_id);
    const bool lossless = descriptor != nullptr && (descriptor->props & AV_CODEC_PROP_LOSSLESS) != 0;
    const bool pcm = av_get_exact_bits_per_sample(codec->codec_id) > 0;
    if (lossless || pcm) {
        info.bits_per_sample = stream().codecpar->bits_per_raw_sample;
        if (info.bits_per_sample == 0) info.bits_per_sample = stream().codecpar->bits_per_coded_sample;
        if (info.bits_per_sample == 0)
            info.bits_per_sample = 8 * av_get_bytes_per_sample(static_cast<AVSampleFormat>(frame->format));
    }
    if (info.container == "wav") info.duration_s = promised_duration_of_wav_s(path);
    if (info.duration_s || input->duration_estimation_method == AVFMT_DURATION_FROM_BITRATE) return;
    if (stream().duration > 0)
        info.duration_s = static_cast<double>(stream().duration) * av_q2d(stream().time_base);
    else if (input->duration > 0)
        info.duration_s = static_cast<double>(input->duration) / AV_TIME_BASE;
}

/// Brings the next decoded frame, or the end.
void Decoder::advance()
{
    frame_length = frame_used = 0;
    while (!ended) {
        const int received = avcodec_receive_frame(codec.get(), frame.get());
        if (received == 0) {
            take_frame();
            return;
        }
        if (received == AVERROR(EAGAIN)) {
            if (!feed()) finish();
        } else if (received == AVERROR_EOF) {
            finish();
        } else {
            note_damage();
            if (input_ended) finish();
        }
    }
}

/// Sends the next packet of our stream to the decoder. Returns false when nothing more can come.
bool Decoder::feed()
{
    for (int idle = 0; !input_ended && idle < most_idle_reads; ++idle) {
        forget_last_message();
        const int got = av_read_frame(input.get(), packet.get());
        if (got == AVERROR(EAGAIN)) continue;
        if (got < 0) {
            if (got == AVERROR(EIO))
                failed = Error{ErrorCode::unavailable,
                               fmt::format("reading {} failed: {}; check the disk or stick it is on", path,
                                           describe(got))};
            else if (got != AVERROR_EOF)
                remarks.push_back(fmt::format(
                    "what comes after {:.1f} s cannot be read: {}",
                    static_cast<double>(position) / std::max(1.0, info.sample_rate_hz), describe(got)));
            break;
        }
        idle = 0;
        if (packet->stream_index != stream_index) {
            av_packet_unref(packet.get());
            continue;
        }
        const int sent = avcodec_send_packet(codec.get(), packet.get());
        av_packet_unref(packet.get());
        if (sent < 0 && sent != AVERROR(EAGAIN)) note_damage();
        return true;
    }
    if (input_ended) return false;
    input_ended = true;
    return avcodec_send_packet(codec.get(), nullptr) >= 0;
}

void Decoder::take_frame()
{
    if (frame->nb_samples <= 0) return;
    const bool changed = info.channels != 0 && (frame->ch_layout.nb_channels != info.channels ||
                                                frame->sample_rate != static_cast<int>(info.sample_rate_hz) ||
                                                !is_convertible(static_cast<AVSampleFormat>(frame->format)));
    if (changed) {
        remarks.push_back(fmt::format(
            "the recording changes to {} channels at {} Hz after {:.1f} s; what follows was not read",
            frame->ch_layout.nb_channels, frame->sample_rate,
            static_cast<double>(position) / info.sample_rate_hz));
        input_ended = true;
        finish();
        return;
    }
    frame_length = static_cast<std::size_t>(frame->nb_samples);
    bridge_gap();
}

/// Sound that the container says is missing becomes silence, so that times stay true and no tone is joined
/// across.
void Decoder::bridge_gap()
{
    const double rate_hz = frame->sample_rate;
    const double length_s = static_cast<double>(frame_length) / rate_hz;
    if (frame->best_effort_timestamp == AV_NOPTS_VALUE) {
        if (next_time_s) *next_time_s += length_s;
        return;
    }
    const double time_s = static_cast<double>(frame->best_effort_timestamp) * av_q2d(stream().time_base);
    const double gap_s = next_time_s ? time_s - *next_time_s : 0.0;
    if (gap_s > shortest_gap_s && gap_s < longest_gap_s) {
        silence += static_cast<std::uint64_t>(std::llround(gap_s * rate_hz));
        if (missing_s == 0.0) first_missing_s = static_cast<double>(position) / rate_hz;
        missing_s += gap_s;
    }
    next_time_s = time_s + length_s;
}

/// A packet that cannot be decoded; the time stamps of the next one show how much silence stands for it.
void Decoder::note_damage()
{
    if (damaged_pieces++ == 0)
        first_damage_s = static_cast<double>(position) / std::max(1.0, info.sample_rate_hz);
}

void Decoder::finish()
{
    if (ended) return;
    ended = true;
    if (damaged_pieces > 0)
        remarks.push_back(fmt::format("{} damaged {}, the first at {:.1f} s, could not be decoded",
                                      damaged_pieces, damaged_pieces == 1 ? "piece" : "pieces",
                                      first_damage_s));
    if (missing_s > 0.0)
        remarks.push_back(
            fmt::format("{:.2f} s of sound are missing from {:.1f} s on; silence stands in their place",
                        missing_s, first_missing_s));
    const double got_s = static_cast<double>(position) / std::max(1.0, info.sample_rate_hz);
    if (info.duration_s && got_s < 0.98 * *info.duration_s - 0.1)
        remarks.push_back(fmt::format(
            "the file ends after {:.1f} s but promises {:.1f} s: it was cut off, perhaps when it was "
            "copied; what is there was used",
            got_s, *info.duration_s));
}

} // namespace harpkeep::ffmpeg
