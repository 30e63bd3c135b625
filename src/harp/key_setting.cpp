// SPDX-License-Identifier: MIT
#include "harp/key_setting.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace harpkeep {

namespace {

std::string replaced(std::string_view text, std::string_view from, std::string_view to)
{
    std::string result;
    while (true) {
        const auto at = std::min(text.find(from), text.size());
        result.append(text.substr(0, at));
        if (at == text.size()) return result;
        result.append(to);
        text.remove_prefix(at + from.size());
    }
}

/// Lower case, musical signs and the words "flat" and "sharp" as b and #.
std::string plain(std::string_view text)
{
    std::string result = replaced(replaced(replaced(text, "\u266D", "b"), "\u266F", "#"), "\u266E", "");
    for (char& letter : result) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    for (const std::string_view flat : {"-flat", " flat"}) result = replaced(result, flat, "b");
    for (const std::string_view sharp : {"-sharp", " sharp"}) result = replaced(result, sharp, "#");
    return replaced(result, " natural", "");
}

std::vector<std::string> words_of(std::string_view text)
{
    constexpr std::string_view separators = " |,";
    std::vector<std::string> words;
    while (true) {
        const auto start = text.find_first_not_of(separators);
        if (start == std::string_view::npos) return words;
        text.remove_prefix(start);
        const auto length = std::min(text.find_first_of(separators), text.size());
        words.emplace_back(text.substr(0, length));
        text.remove_prefix(length);
    }
}

struct SpelledLetter {
    Letter letter = Letter::C;
    int alteration = 0;
};

std::optional<SpelledLetter> spelled_letter(const std::string& word)
{
    if (word.empty() || word.size() > 2) return std::nullopt;
    const auto letter = letter_from_name(word[0]);
    if (!letter) return std::nullopt;
    if (word.size() == 1) return SpelledLetter{*letter, 0};
    if (word[1] == 'b') return SpelledLetter{*letter, -1};
    if (word[1] == '#') return SpelledLetter{*letter, 1};
    return std::nullopt;
}

/// Steps round the circle of fifths from C.
int fifths_from_c(SpelledLetter tonic)
{
    constexpr std::array<int, 7> of_letter{0, 2, 4, -1, 1, 3, 5}; // C D E F G A B
    return of_letter[static_cast<std::size_t>(tonic.letter)] + 7 * tonic.alteration;
}

/// Setting of a key signature, -7 (seven flats) to 7 (seven sharps).
std::optional<PedalSetting> signature(int sharps)
{
    constexpr std::array<Letter, 7> order_of_sharps{Letter::F, Letter::C, Letter::G, Letter::D,
                                                    Letter::A, Letter::E, Letter::B};
    if (sharps < -7 || sharps > 7) return std::nullopt;
    PedalSetting setting;
    for (int i = 0; i < std::abs(sharps); ++i) {
        const auto index = static_cast<std::size_t>(sharps > 0 ? i : 6 - i);
        setting.alterations[static_cast<std::size_t>(order_of_sharps[index])] = sharps > 0 ? 1 : -1;
    }
    return setting;
}

enum class Mode { major, natural_minor, harmonic_minor, melodic_minor };

std::optional<PedalSetting> key_setting(SpelledLetter tonic, Mode mode)
{
    auto setting = signature(fifths_from_c(tonic) - (mode == Mode::major ? 0 : 3));
    if (!setting) return std::nullopt;
    const auto raise = [&](int degree) { // 0 is the tonic
        const auto letter = (static_cast<std::size_t>(tonic.letter) + static_cast<std::size_t>(degree)) % 7;
        return ++setting->alterations[letter] <= 1;
    };
    if (mode == Mode::melodic_minor && !raise(5)) return std::nullopt;
    if ((mode == Mode::harmonic_minor || mode == Mode::melodic_minor) && !raise(6)) return std::nullopt;
    return setting;
}

std::optional<PedalSetting> from_key(std::vector<std::string> words)
{
    if (words.empty() || words.size() > 3) return std::nullopt;
    Mode mode = Mode::major;
    if (words.size() == 1 && words[0].size() > 1 && words[0].back() == 'm') { // "c#m"
        words[0].pop_back();
        mode = Mode::natural_minor;
    }
    if (words.size() == 2) {
        if (words[1] == "minor")
            mode = Mode::natural_minor;
        else if (words[1] != "major")
            return std::nullopt;
    }
    if (words.size() == 3) {
        if (words[2] != "minor") return std::nullopt;
        if (words[1] == "harmonic")
            mode = Mode::harmonic_minor;
        else if (words[1] == "melodic")
            mode = Mode::melodic_minor;
        else
            return std::nullopt;
    }
    const auto tonic = spelled_letter(words[0]);
    return tonic ? key_setting(*tonic, mode) : std::nullopt;
}

std::string key_name(SpelledLetter tonic, std::string_view mode)
{
    constexpr std::array<std::string_view, 3> accidentals{" flat", "", " sharp"};
    return fmt::format("{}{} {}", letter_name(tonic.letter),
                       accidentals[static_cast<std::size_t>(tonic.alteration + 1)], mode);
}

} // namespace

Result<PedalSetting> setting_from_text(std::string_view text)
{
    if (const auto setting = from_key(words_of(plain(text)))) return *setting;
    if (const auto setting = pedal_setting_from_text(text); setting && !text.empty()) return setting;
    return failure(ErrorCode::invalid_argument,
                   fmt::format("\"{}\" is no setting of seven pedals; write a key as \"E flat major\" or "
                               "\"A harmonic minor\" that needs no double sharp or flat, the pedals "
                               "D C B | E F G A as \"^v^|-^-v\" (^ flat, - natural, v sharp), or the letters "
                               "as \"D C# Bb E F# G A\"",
                               text));
}

std::vector<KeySetting> all_key_settings(bool minors)
{
    struct ModeName {
        Mode mode;
        std::string_view name;
    };
    std::vector<ModeName> modes{{Mode::major, "major"}};
    if (minors) {
        modes.push_back({Mode::natural_minor, "minor"});
        modes.push_back({Mode::harmonic_minor, "harmonic minor"});
    }
    std::vector<KeySetting> keys;
    for (const auto& mode : modes)
        for (int fifths = -7; fifths <= 14; ++fifths)
            for (const int alteration : {-1, 0, 1})
                for (const Letter letter : all_letters) {
                    const SpelledLetter tonic{letter, alteration};
                    if (fifths_from_c(tonic) != fifths) continue;
                    if (const auto setting = key_setting(tonic, mode.mode))
                        keys.push_back({key_name(tonic, mode.name), *setting});
                }
    return keys;
}

std::vector<PedalSetting> all_pedal_settings()
{
    std::vector<PedalSetting> all;
    for (int code = 0; code < 2187; ++code) { // 3^7
        PedalSetting setting;
        int rest = code;
        for (int& alteration : setting.alterations) {
            alteration = rest % 3 - 1;
            rest /= 3;
        }
        all.push_back(setting);
    }
    return all;
}

std::optional<Position> position_for(HarpKind kind, const HarpString& string, int alteration)
{
    for (const Position position : positions_of(kind, string))
        if (alteration_of(string, position) == alteration) return position;
    return std::nullopt;
}

} // namespace harpkeep
