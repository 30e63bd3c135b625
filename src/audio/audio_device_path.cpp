// SPDX-License-Identifier: MIT
#include "audio/audio_device_path.hpp"

#include <alsa/asoundlib.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <string>

namespace harpkeep {

namespace {

struct ConfigDeleter {
    void operator()(snd_config_t* config) const { snd_config_delete(config); }
};
using ConfigPointer = std::unique_ptr<snd_config_t, ConfigDeleter>;

constexpr int deepest_nesting = 16; // a configuration may refer to itself
constexpr std::array<std::string_view, 2> resampling_types{"plug", "rate"};
constexpr std::array<std::string_view, 2> server_types{"pulse", "pipewire"};
// Each hands on to its slave; the part that says where is listed beside it.
struct Forwarding {
    std::string_view type;
    const char* slave;
};
constexpr std::array<Forwarding, 10> forwarding_types{{{"asym", "capture.pcm"},
                                                       {"copy", "slave.pcm"},
                                                       {"dsnoop", "slave.pcm"},
                                                       {"empty", "slave.pcm"},
                                                       {"file", "slave.pcm"},
                                                       {"hooks", "slave.pcm"},
                                                       {"lfloat", "slave.pcm"},
                                                       {"linear", "slave.pcm"},
                                                       {"route", "slave.pcm"},
                                                       {"softvol", "slave.pcm"}}};

DevicePath path_of_definition(snd_config_t* definition, int depth);

std::optional<std::string> text_at(snd_config_t* definition, const char* key)
{
    snd_config_t* node = nullptr;
    const char* text = nullptr;
    if (snd_config_search(definition, key, &node) < 0 || snd_config_get_string(node, &text) < 0)
        return std::nullopt;
    return text;
}

DevicePath path_of_name(const std::string& name, int depth)
{
    if (snd_config_update() < 0) return DevicePath::unknown;
    snd_config_t* found = nullptr;
    if (snd_config_search_definition(snd_config, "pcm", name.c_str(), &found) < 0) return DevicePath::unknown;
    const ConfigPointer definition{found};
    return path_of_definition(definition.get(), depth);
}

DevicePath path_of_slave(snd_config_t* definition, const char* key, int depth)
{
    if (const auto name = text_at(definition, key)) return path_of_name(*name, depth + 1);
    snd_config_t* inner = nullptr;
    if (snd_config_search(definition, key, &inner) < 0) return DevicePath::unknown;
    return path_of_definition(inner, depth + 1);
}

DevicePath path_of_definition(snd_config_t* definition, int depth)
{
    if (depth > deepest_nesting) return DevicePath::unknown;
    const auto type = text_at(definition, "type");
    if (!type) return DevicePath::unknown;
    const auto is_type = [&](std::string_view name) { return *type == name; };
    if (is_type("hw")) return DevicePath::hardware;
    if (is_type("jack")) return DevicePath::fixed_rate;
    if (std::any_of(resampling_types.begin(), resampling_types.end(), is_type)) return DevicePath::resampling;
    if (std::any_of(server_types.begin(), server_types.end(), is_type)) return DevicePath::sound_server;
    for (const Forwarding& forwarding : forwarding_types)
        if (*type == forwarding.type) return path_of_slave(definition, forwarding.slave, depth);
    return DevicePath::unknown;
}

} // namespace

DevicePath device_path(std::string_view host_api, std::string_view name)
{
    if (host_api.starts_with("JACK")) return DevicePath::fixed_rate;
    if (host_api != "ALSA") return DevicePath::unknown;
    if (name.find("(hw:") != std::string_view::npos && name.ends_with(")")) return DevicePath::hardware;
    return path_of_name(std::string{name}, 0);
}

} // namespace harpkeep
