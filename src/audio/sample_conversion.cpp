// SPDX-License-Identifier: MIT
#include "audio/sample_conversion.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace harpkeep::ffmpeg {

namespace {

double to_unit(std::uint8_t sample)
{
    return (static_cast<double>(sample) - 128.0) / 128.0;
}
double to_unit(std::int16_t sample)
{
    return static_cast<double>(sample) * 0x1p-15;
}
double to_unit(std::int32_t sample)
{
    return static_cast<double>(sample) * 0x1p-31;
}
double to_unit(std::int64_t sample)
{
    return static_cast<double>(sample) * 0x1p-63;
}
double to_unit(float sample)
{
    return std::isfinite(sample) ? static_cast<double>(sample) : 0.0;
}
double to_unit(double sample)
{
    return std::isfinite(sample) ? sample : 0.0;
}

template <class Sample>
void copy_out(const AVFrame& frame, int channels, std::size_t first, std::size_t count, float* interleaved)
{
    const auto width = static_cast<std::size_t>(channels);
    const bool planar = av_sample_fmt_is_planar(static_cast<AVSampleFormat>(frame.format)) != 0;
    for (std::size_t channel = 0; channel < width; ++channel) {
        const auto* plane = reinterpret_cast<const Sample*>(frame.extended_data[planar ? channel : 0]);
        const std::size_t stride = planar ? 1 : width;
        const std::size_t offset = planar ? 0 : channel;
        for (std::size_t n = 0; n < count; ++n)
            interleaved[n * width + channel] =
                static_cast<float>(to_unit(plane[(first + n) * stride + offset]));
    }
}

template <class Sample>
Sample from_unit(float value, int bits)
{
    if constexpr (std::is_floating_point_v<Sample>) {
        return static_cast<Sample>(value);
    } else {
        const int own_bits = std::numeric_limits<Sample>::digits + 1;
        const double steps = std::ldexp(1.0, std::min(bits, own_bits) - 1);
        const double rounded =
            std::clamp(std::nearbyint(static_cast<double>(value) * steps), -steps, steps - 1.0);
        return static_cast<Sample>(static_cast<std::int64_t>(rounded) *
                                   (std::int64_t{1} << (own_bits - std::min(bits, own_bits))));
    }
}

template <class Sample>
void copy_in(const float* interleaved, int channels, std::size_t count, int bits, AVFrame& frame)
{
    const auto width = static_cast<std::size_t>(channels);
    const bool planar = av_sample_fmt_is_planar(static_cast<AVSampleFormat>(frame.format)) != 0;
    for (std::size_t channel = 0; channel < width; ++channel) {
        auto* plane = reinterpret_cast<Sample*>(frame.extended_data[planar ? channel : 0]);
        const std::size_t stride = planar ? 1 : width;
        const std::size_t offset = planar ? 0 : channel;
        for (std::size_t n = 0; n < count; ++n)
            plane[n * stride + offset] = from_unit<Sample>(interleaved[n * width + channel], bits);
    }
}

} // namespace

bool is_convertible(AVSampleFormat format)
{
    switch (av_get_packed_sample_fmt(format)) {
    case AV_SAMPLE_FMT_U8:
    case AV_SAMPLE_FMT_S16:
    case AV_SAMPLE_FMT_S32:
    case AV_SAMPLE_FMT_S64:
    case AV_SAMPLE_FMT_FLT:
    case AV_SAMPLE_FMT_DBL:
        return true;
    default:
        return false;
    }
}

void copy_to_floats(const AVFrame& frame, int channels, std::size_t first, std::size_t count,
                    float* interleaved)
{
    switch (av_get_packed_sample_fmt(static_cast<AVSampleFormat>(frame.format))) {
    case AV_SAMPLE_FMT_U8:
        copy_out<std::uint8_t>(frame, channels, first, count, interleaved);
        break;
    case AV_SAMPLE_FMT_S16:
        copy_out<std::int16_t>(frame, channels, first, count, interleaved);
        break;
    case AV_SAMPLE_FMT_S32:
        copy_out<std::int32_t>(frame, channels, first, count, interleaved);
        break;
    case AV_SAMPLE_FMT_S64:
        copy_out<std::int64_t>(frame, channels, first, count, interleaved);
        break;
    case AV_SAMPLE_FMT_FLT:
        copy_out<float>(frame, channels, first, count, interleaved);
        break;
    case AV_SAMPLE_FMT_DBL:
        copy_out<double>(frame, channels, first, count, interleaved);
        break;
    default:
        HARPKEEP_EXPECTS(!"is_convertible() was not asked");
    }
}

void copy_from_floats(const float* interleaved, int channels, std::size_t count, int bits, AVFrame& frame)
{
    switch (av_get_packed_sample_fmt(static_cast<AVSampleFormat>(frame.format))) {
    case AV_SAMPLE_FMT_S16:
        copy_in<std::int16_t>(interleaved, channels, count, bits, frame);
        break;
    case AV_SAMPLE_FMT_S32:
        copy_in<std::int32_t>(interleaved, channels, count, bits, frame);
        break;
    case AV_SAMPLE_FMT_FLT:
        copy_in<float>(interleaved, channels, count, bits, frame);
        break;
    case AV_SAMPLE_FMT_DBL:
        copy_in<double>(interleaved, channels, count, bits, frame);
        break;
    default:
        HARPKEEP_EXPECTS(!"the encoder was opened with another format");
    }
}

} // namespace harpkeep::ffmpeg
