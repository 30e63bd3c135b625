// SPDX-License-Identifier: MIT
#include "tests/support/real_samples.hpp"

#include "audio/mono_stream.hpp"
#include "harp/expected_pitch.hpp"

#include <array>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace harpkeep::tests {

namespace {

std::string samples_folder()
{
    const char* chosen = std::getenv("HARPKEEP_SAMPLES");
    return chosen != nullptr ? chosen : HARPKEEP_SOURCE_FOLDER "/build/samples";
}

double nominal_hz(const std::string& note)
{
    const bool sharp = note.size() == 3 && note[1] == '#';
    const auto place = place_from_scientific_name(sharp ? std::string{note[0], note[2]} : note);
    if (!place) throw std::runtime_error("no note: " + note);
    return equal_temperament(key_number(*place, sharp ? 1 : 0), Hertz{440.0}).value();
}

} // namespace

std::vector<RealSample> real_samples()
{
    const std::string folder = samples_folder();
    std::ifstream index(folder + "/index.csv");
    std::string line;
    if (!std::getline(index, line))
        throw std::runtime_error("no recordings in " + folder + ": run scripts/fetch_samples.sh");
    std::vector<RealSample> samples;
    while (std::getline(index, line)) {
        std::istringstream fields(line);
        std::array<std::string, 4> field;
        for (std::string& text : field) std::getline(fields, text, ',');
        samples.push_back({field[0], field[1], folder + "/" + field[2], field[3], nominal_hz(field[1])});
    }
    return samples;
}

std::vector<RealSample> real_samples(const std::string& set)
{
    auto samples = real_samples();
    std::erase_if(samples, [&](const RealSample& sample) { return sample.set != set; });
    return samples;
}

MonoSound load(const std::string& path)
{
    auto stream = MonoStream::open(path);
    if (!stream) throw std::runtime_error(stream.error().message);
    MonoSound sound{.sample_rate_hz = stream->sample_rate_hz()};
    std::vector<float> piece(4096);
    while (true) {
        const auto count = stream->read(piece);
        if (!count) throw std::runtime_error(count.error().message);
        if (*count == 0) return sound;
        sound.samples.insert(sound.samples.end(), piece.begin(),
                             piece.begin() + static_cast<std::ptrdiff_t>(*count));
    }
}

} // namespace harpkeep::tests
