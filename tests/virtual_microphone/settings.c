// SPDX-License-Identifier: MIT
#include "settings.h"

#include <string.h>

struct number_field {
    const char* name;
    double* value;
};

struct text_field {
    const char* name;
    const char** value;
};

static int read_field(snd_config_t* field, const char* name, struct settings* s)
{
    const struct text_field texts[] = {{"infile", &s->infile},
                                       {"format", &s->sample_format},
                                       {"busyfile", &s->busy_file},
                                       {"presence", &s->presence_file}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; ++i)
        if (strcmp(name, texts[i].name) == 0) return snd_config_get_string(field, texts[i].value);

    const struct number_field numbers[] = {{"rate", &s->rate_hz},    {"channels", &s->channels},
                                           {"speed", &s->speed},     {"ppm", &s->clock_error_ppm},
                                           {"loop", &s->loop},       {"lossless", &s->lossless},
                                           {"unplug", &s->unplug_s}, {"unplugmode", &s->unplug_mode},
                                           {"stall", &s->stall_s},   {"overrun", &s->overrun_s},
                                           {"busy", &s->busy}};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; ++i)
        if (strcmp(name, numbers[i].name) == 0) return snd_config_get_ireal(field, numbers[i].value);
    return -EINVAL;
}

int read_settings(snd_config_t* conf, struct settings* settings)
{
    *settings =
        (struct settings){.sample_format = "any", .rate_hz = 48000, .channels = 1, .speed = 1, .lossless = 1};
    snd_config_iterator_t i, next;
    snd_config_for_each(i, next, conf)
    {
        snd_config_t* field = snd_config_iterator_entry(i);
        const char* name = NULL;
        if (snd_config_get_id(field, &name) < 0) continue;
        // These belong to every PCM block and are read by ALSA itself.
        if (strcmp(name, "type") == 0 || strcmp(name, "comment") == 0 || strcmp(name, "hint") == 0) continue;
        if (read_field(field, name, settings) < 0) {
            SNDERR("virtual microphone: field %s is unknown or of the wrong kind", name);
            return -EINVAL;
        }
    }
    return 0;
}
