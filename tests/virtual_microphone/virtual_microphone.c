// SPDX-License-Identifier: MIT
//
// An ALSA plug-in (ioplug) that plays a file as a capture device, paced by a timer, with faults on demand.
// Programs reach it through the ALSA library like any sound card, so the whole capture path is under test on
// a machine without one.
//
// Positions count frames. The hardware pointer follows the monotonic clock; transfer() copies from the file
// at `base + read`, where `base` moves on when the device is started again after an overrun.
#include "sample_file.h"
#include "settings.h"

#include <alsa/pcm_external.h>

#include <errno.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/timerfd.h>
#include <time.h>
#include <unistd.h>

struct microphone {
    snd_pcm_ioplug_t io;
    struct settings settings;
    struct sample_file file;
    int timer;
    int64_t first_start_ns; ///< 0: not started yet
    int64_t start_ns;
    uint64_t base;         ///< frame of the file at which the last start stands
    uint64_t read;         ///< frames handed over since the last start
    uint64_t last_pointer; ///< what pointer() said last
    int overrun_done;
};

static int64_t now_ns(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec * 1000000000LL + now.tv_nsec;
}

static double seconds_since(int64_t then_ns)
{
    return (double)(now_ns() - then_ns) / 1e9;
}

static double elapsed_s(const struct microphone* m)
{
    return m->first_start_ns ? seconds_since(m->first_start_ns) : 0.0;
}

static double frames_per_second(const struct microphone* m)
{
    const struct settings* s = &m->settings;
    return s->rate_hz * s->speed * (1.0 + s->clock_error_ppm * 1e-6);
}

static int file_exists(const char* path)
{
    struct stat found;
    return stat(path, &found) == 0;
}

static int is_due(const struct microphone* m, double fault_s)
{
    return fault_s > 0.0 && elapsed_s(m) > fault_s;
}

static int is_gone(const struct microphone* m)
{
    if (is_due(m, m->settings.unplug_s)) return 1;
    return m->settings.presence_file && !file_exists(m->settings.presence_file);
}

/// Frames that the card has taken since the last start.
static uint64_t frames_taken(const struct microphone* m)
{
    double running_s = seconds_since(m->start_ns);
    if (is_due(m, m->settings.stall_s)) {
        const double start_s = (double)(m->start_ns - m->first_start_ns) / 1e9;
        running_s = fmax(0.0, m->settings.stall_s - start_s);
    }
    return (uint64_t)(running_s * frames_per_second(m));
}

static void set_timer(const struct microphone* m, double period_s)
{
    const struct timespec period = {.tv_nsec = (long)(period_s * 1e9)};
    const struct itimerspec setting = {.it_interval = period, .it_value = period};
    timerfd_settime(m->timer, 0, &setting, NULL);
}

static int on_start(snd_pcm_ioplug_t* io)
{
    struct microphone* m = io->private_data;
    m->start_ns = now_ns();
    if (!m->first_start_ns)
        m->first_start_ns = m->start_ns;
    else if (m->settings.lossless)
        m->base += m->read;
    else
        m->base = (uint64_t)(elapsed_s(m) * frames_per_second(m)); // the sound went on meanwhile
    m->read = 0;
    const double period_s = (double)io->period_size / (m->settings.rate_hz * m->settings.speed);
    set_timer(m, fmin(0.005, fmax(0.0005, period_s)));
    return 0;
}

static int on_stop(snd_pcm_ioplug_t* io)
{
    set_timer(io->private_data, 0.0);
    return 0;
}

static int on_prepare(snd_pcm_ioplug_t* io)
{
    const struct microphone* m = io->private_data;
    return m->first_start_ns && is_gone(m) ? -ENODEV : 0;
}

static snd_pcm_sframes_t on_pointer(snd_pcm_ioplug_t* io)
{
    struct microphone* m = io->private_data;
    if (is_gone(m)) {
        snd_pcm_ioplug_set_state(io, SND_PCM_STATE_DISCONNECTED);
        return m->settings.unplug_mode != 0.0 ? -ENODEV : (snd_pcm_sframes_t)m->last_pointer;
    }
    if (!m->overrun_done && is_due(m, m->settings.overrun_s)) {
        m->overrun_done = 1;
        return -EPIPE;
    }
    uint64_t position = frames_taken(m);
    const uint64_t buffer_end = m->read + io->buffer_size;
    if (position > buffer_end) {
        if (!m->settings.lossless) return -EPIPE;
        position = buffer_end;
    }
    m->last_pointer = position;
    return (snd_pcm_sframes_t)position;
}

/// How long ago the next sample for the reader was taken, as frames of the nominal rate: so a reader learns
/// the right time of each sample also at another speed, or when it came late and nothing was lost.
static int on_delay(snd_pcm_ioplug_t* io, snd_pcm_sframes_t* delay)
{
    const struct microphone* m = io->private_data;
    const double ago_s = seconds_since(m->start_ns) - (double)io->appl_ptr / frames_per_second(m);
    *delay = (snd_pcm_sframes_t)fmax(0.0, rint(ago_s * m->settings.rate_hz));
    return 0;
}

static float sample_at(const struct microphone* m, uint64_t frame)
{
    if (m->settings.loop != 0.0 && m->file.count > 0) frame %= m->file.count;
    return frame < m->file.count ? m->file.samples[frame] : 0.0f;
}

static snd_pcm_sframes_t on_transfer(snd_pcm_ioplug_t* io, const snd_pcm_channel_area_t* areas,
                                     snd_pcm_uframes_t offset, snd_pcm_uframes_t frames)
{
    struct microphone* m = io->private_data;
    for (unsigned channel = 0; channel < io->channels; ++channel) {
        const snd_pcm_channel_area_t* area = &areas[channel];
        char* target = (char*)area->addr + (area->first + area->step * offset) / 8;
        for (snd_pcm_uframes_t i = 0; i < frames; ++i, target += area->step / 8) {
            const int written = write_sample(sample_at(m, m->base + m->read + i), io->format, target);
            if (written < 0) return written;
        }
    }
    m->read += frames;
    return (snd_pcm_sframes_t)frames;
}

static int on_poll(snd_pcm_ioplug_t* io, struct pollfd* descriptors, unsigned count, unsigned short* events)
{
    struct microphone* m = io->private_data;
    (void)count;
    uint64_t expirations;
    if (descriptors->revents & POLLIN)
        while (read(m->timer, &expirations, sizeof expirations) == sizeof expirations) continue;
    if (is_gone(m)) {
        *events = POLLERR | POLLHUP;
        return 0;
    }
    const snd_pcm_sframes_t available = snd_pcm_avail_update(io->pcm);
    *events = available < 0 ? POLLERR : available >= (snd_pcm_sframes_t)io->period_size ? POLLIN : 0;
    return 0;
}

static void free_microphone(struct microphone* m)
{
    if (m->timer >= 0) close(m->timer);
    free_samples(&m->file);
    free((char*)m->settings.presence_file);
    free(m);
}

static int on_close(snd_pcm_ioplug_t* io)
{
    free_microphone(io->private_data);
    return 0;
}

static const snd_pcm_ioplug_callback_t callbacks = {.start = on_start,
                                                    .stop = on_stop,
                                                    .prepare = on_prepare,
                                                    .pointer = on_pointer,
                                                    .delay = on_delay,
                                                    .transfer = on_transfer,
                                                    .poll_revents = on_poll,
                                                    .close = on_close};

static void declare_parameters(struct microphone* m)
{
    static const unsigned accesses[] = {SND_PCM_ACCESS_RW_INTERLEAVED, SND_PCM_ACCESS_RW_NONINTERLEAVED,
                                        SND_PCM_ACCESS_MMAP_INTERLEAVED, SND_PCM_ACCESS_MMAP_NONINTERLEAVED};
    const unsigned all_formats[] = {SND_PCM_FORMAT_FLOAT_LE, SND_PCM_FORMAT_S16_LE, SND_PCM_FORMAT_S24_3LE,
                                    SND_PCM_FORMAT_S32_LE};
    const snd_pcm_format_t named = format_named(m->settings.sample_format);
    const unsigned one_format[] = {(unsigned)named};
    const unsigned channels = (unsigned)m->settings.channels;
    const unsigned rate = (unsigned)m->settings.rate_hz;
    snd_pcm_ioplug_set_param_list(&m->io, SND_PCM_IOPLUG_HW_ACCESS, 4, accesses);
    if (named == SND_PCM_FORMAT_UNKNOWN)
        snd_pcm_ioplug_set_param_list(&m->io, SND_PCM_IOPLUG_HW_FORMAT, 4, all_formats);
    else
        snd_pcm_ioplug_set_param_list(&m->io, SND_PCM_IOPLUG_HW_FORMAT, 1, one_format);
    snd_pcm_ioplug_set_param_minmax(&m->io, SND_PCM_IOPLUG_HW_CHANNELS, channels, channels);
    snd_pcm_ioplug_set_param_minmax(&m->io, SND_PCM_IOPLUG_HW_RATE, rate, rate);
    snd_pcm_ioplug_set_param_minmax(&m->io, SND_PCM_IOPLUG_HW_PERIOD_BYTES, 128, 65536 * channels);
    snd_pcm_ioplug_set_param_minmax(&m->io, SND_PCM_IOPLUG_HW_PERIODS, 2, 64);
}

/// The error with which opening fails by order of the settings, or 0.
static int ordered_failure(const struct settings* settings, snd_pcm_stream_t stream)
{
    if (stream != SND_PCM_STREAM_CAPTURE) return -EINVAL;
    if (settings->busy != 0.0 || (settings->busy_file && file_exists(settings->busy_file))) return -EBUSY;
    if (settings->presence_file && !file_exists(settings->presence_file)) return -ENOENT;
    return 0;
}

SND_PCM_PLUGIN_DEFINE_FUNC(virtual_microphone)
{
    (void)root;
    struct settings settings;
    int error = read_settings(conf, &settings);
    if (error == 0) error = ordered_failure(&settings, stream);
    if (error < 0) return error;

    struct microphone* m = calloc(1, sizeof *m);
    if (!m) return -ENOMEM;
    m->settings = settings;
    // The texts go when the configuration is read again; this one is needed as long as the device is open.
    m->settings.presence_file = settings.presence_file ? strdup(settings.presence_file) : NULL;
    m->timer = timerfd_create(CLOCK_MONOTONIC, TFD_NONBLOCK | TFD_CLOEXEC);
    m->io.version = SND_PCM_IOPLUG_VERSION;
    m->io.name = "virtual microphone";
    m->io.callback = &callbacks;
    m->io.private_data = m;
    m->io.poll_fd = m->timer;
    m->io.poll_events = POLLIN;
    m->io.flags = SND_PCM_IOPLUG_FLAG_MONOTONIC | SND_PCM_IOPLUG_FLAG_BOUNDARY_WA;
    error = read_samples(settings.infile, &m->file);
    if (error == 0) error = snd_pcm_ioplug_create(&m->io, name, stream, mode);
    if (error < 0) {
        free_microphone(m);
        return error;
    }
    declare_parameters(m);
    *pcmp = m->io.pcm;
    return 0;
}

SND_PCM_PLUGIN_SYMBOL(virtual_microphone);
