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

/// The note by its scientific name with sharps: "C#3".
RealSample sample_of(const std::string& note)
{
    RealSample sample{.note = note, .sharp = note.size() == 3 && note[1] == '#'};
    const auto place = place_from_scientific_name(sample.sharp ? std::string{note[0], note[2]} : note);
    if (!place) throw std::runtime_error("no note: " + note);
    sample.place = *place;
    sample.nominal_hz = equal_temperament(key_number(*place, sample.sharp ? 1 : 0), Hertz{440.0}).value();
    return sample;
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
        RealSample sample = sample_of(field[1]);
        sample.set = field[0], sample.path = folder + "/" + field[2], sample.licence = field[3];
        samples.push_back(std::move(sample));
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
