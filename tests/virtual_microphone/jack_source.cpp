// SPDX-License-Identifier: MIT
//
// A JACK client that plays a raw float32 file on its output port, to be recorded from.
//     jack_source FILE SECONDS
// It starts to play when somebody connects to it and ends after SECONDS.
//     jack_source --wait [PORT]
// Waits until the server answers and has a port of whose name PORT is a part; gives up after 30 s.
#include <jack/jack.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>
#include <vector>

namespace {

struct Source {
    std::vector<float> samples;
    std::size_t position = 0;
    jack_port_t* port = nullptr;
    std::atomic<bool> playing{false};
};

int process(jack_nframes_t frames, void* user)
{
    auto& source = *static_cast<Source*>(user);
    auto* output = static_cast<float*>(jack_port_get_buffer(source.port, frames));
    std::fill(output, output + frames, 0.0F);
    if (jack_port_connected(source.port) > 0) source.playing = true;
    if (!source.playing) return 0;
    const std::size_t count = std::min<std::size_t>(frames, source.samples.size() - source.position);
    std::copy_n(source.samples.begin() + static_cast<std::ptrdiff_t>(source.position), count, output);
    source.position += count;
    return 0;
}

std::vector<float> read_samples(const char* path)
{
    std::ifstream file{path, std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    std::vector<float> samples(bytes.size() / sizeof(float));
    std::copy_n(bytes.data(), samples.size() * sizeof(float), reinterpret_cast<char*>(samples.data()));
    return samples;
}

bool has_port(jack_client_t* client, const char* name)
{
    const char** ports = jack_get_ports(client, name, nullptr, 0);
    const bool has = ports && *ports;
    if (ports) jack_free(static_cast<void*>(ports));
    return has;
}

int wait_for(const char* port)
{
    for (int tries = 0; tries < 300; ++tries) {
        if (jack_client_t* client = jack_client_open("waiting", JackNoStartServer, nullptr)) {
            const bool found = !port || has_port(client, port);
            jack_client_close(client);
            if (found) return 0;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
    return 1;
}

} // namespace

int main(int argc, char** argv)
{
    if (argc >= 2 && std::string{argv[1]} == "--wait") return wait_for(argc > 2 ? argv[2] : nullptr);
    if (argc != 3) return 2;
    Source source{.samples = read_samples(argv[1])};
    jack_client_t* client = jack_client_open("test source", JackNoStartServer, nullptr);
    if (!client) return 1;
    source.port = jack_port_register(client, "out", JACK_DEFAULT_AUDIO_TYPE, JackPortIsOutput, 0);
    jack_set_process_callback(client, &process, &source);
    if (!source.port || jack_activate(client) != 0) return 1;
    std::puts("ready");
    std::fflush(stdout);
    std::this_thread::sleep_for(std::chrono::duration<double>(std::atof(argv[2])));
    jack_client_close(client);
    return 0;
}
