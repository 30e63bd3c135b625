// SPDX-License-Identifier: MIT
#ifndef VIRTUAL_MICROPHONE_SETTINGS_H
#define VIRTUAL_MICROPHONE_SETTINGS_H

#include <alsa/asoundlib.h>

/// What a `pcm.NAME { type virtual_microphone ... }` block of an ALSA configuration says. Times are seconds
/// after the first start of the device; 0 means never. The texts belong to the configuration.
struct settings {
    const char* infile;        ///< raw mono float32 samples, little-endian
    const char* sample_format; ///< any, float, s16, s24_3 or s32
    double rate_hz;            ///< the only rate that the device takes
    double channels;           ///< all carry the same sound
    double speed;              ///< how much faster than rate_hz the samples come
    double clock_error_ppm;    ///< how much faster the card's clock runs than it says
    double loop;               ///< 1: starts again at the end of the file; 0: zeros follow
    double lossless;           ///< 1: waits for a slow reader; 0: overruns like hardware
    // Faults
    double unplug_s;           ///< from then on the device is gone
    double unplug_mode;        ///< 0: state "disconnected"; 1: overrun, and preparing it again fails
    double stall_s;            ///< from then on no sample comes, with no error
    double overrun_s;          ///< one overrun; what is lost depends on how soon the reader starts again
    double busy;               ///< 1: opening fails as if another program held the device
    const char* busy_file;     ///< the same while this file exists
    const char* presence_file; ///< the device exists only while this file does
};

/// Reads the block `conf`; returns 0, or -EINVAL after a message when a field is unknown or of the wrong
/// kind.
int read_settings(snd_config_t* conf, struct settings* settings);

#endif
