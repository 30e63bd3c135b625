// SPDX-License-Identifier: MIT
#include "sample_file.h"

#include <errno.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int read_samples(const char* path, struct sample_file* file)
{
    FILE* stream = path ? fopen(path, "rb") : NULL;
    if (!stream) return -ENOENT;
    fseek(stream, 0, SEEK_END);
    const size_t wanted = (size_t)ftell(stream) / sizeof(float);
    rewind(stream);
    file->samples = malloc(wanted * sizeof(float) + sizeof(float)); // never of size 0
    file->count = file->samples ? fread(file->samples, sizeof(float), wanted, stream) : 0;
    fclose(stream);
    return file->samples ? 0 : -ENOMEM;
}

void free_samples(struct sample_file* file)
{
    free(file->samples);
    file->samples = NULL;
    file->count = 0;
}

static double scaled(float sample, double full_scale)
{
    return fmin(full_scale - 1.0, fmax(-full_scale, rint(sample * full_scale)));
}

int write_sample(float sample, snd_pcm_format_t format, void* target)
{
    switch (format) {
    case SND_PCM_FORMAT_FLOAT_LE:
        memcpy(target, &sample, sizeof sample);
        return 0;
    case SND_PCM_FORMAT_S16_LE: {
        const int16_t value = (int16_t)scaled(sample, 32768.0);
        memcpy(target, &value, sizeof value);
        return 0;
    }
    case SND_PCM_FORMAT_S24_3LE: {
        const int32_t value = (int32_t)scaled(sample, 8388608.0);
        memcpy(target, &value, 3);
        return 0;
    }
    case SND_PCM_FORMAT_S32_LE: {
        const int32_t value = (int32_t)scaled(sample, 2147483648.0);
        memcpy(target, &value, sizeof value);
        return 0;
    }
    default:
        return -EINVAL;
    }
}

snd_pcm_format_t format_named(const char* name)
{
    if (strcmp(name, "float") == 0) return SND_PCM_FORMAT_FLOAT_LE;
    if (strcmp(name, "s16") == 0) return SND_PCM_FORMAT_S16_LE;
    if (strcmp(name, "s24_3") == 0) return SND_PCM_FORMAT_S24_3LE;
    if (strcmp(name, "s32") == 0) return SND_PCM_FORMAT_S32_LE;
    return SND_PCM_FORMAT_UNKNOWN;
}
