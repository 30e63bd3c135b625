// SPDX-License-Identifier: MIT
#ifndef VIRTUAL_MICROPHONE_SAMPLE_FILE_H
#define VIRTUAL_MICROPHONE_SAMPLE_FILE_H

#include <alsa/asoundlib.h>

#include <stddef.h>

/// The sound that the device plays, whole in memory.
struct sample_file {
    float* samples;
    size_t count;
};

/// Reads a raw float32 file; returns 0 or a negative errno. Free with free_samples().
int read_samples(const char* path, struct sample_file* file);
void free_samples(struct sample_file* file);

/// Writes one sample at `target` in a format of the device; returns 0, or -EINVAL for any other format.
int write_sample(float sample, snd_pcm_format_t format, void* target);

/// The format with the name used in the configuration, or SND_PCM_FORMAT_UNKNOWN.
snd_pcm_format_t format_named(const char* name);

#endif
