// SPDX-License-Identifier: MIT
#include "harp/temperament.hpp"

#include "base/expects.hpp"
#include "harp/expected_pitch.hpp"
#include "units/interval.hpp"

#include <cmath>
#include <initializer_list>
#include <utility>

namespace harpkeep {

namespace {

constexpr double octaves_of_twelve_fifths_cents = 8400.0;

double ratio_cents(double ratio)
{
    return 1200.0 * std::log2(ratio);
}

const double pure_fifth = ratio_cents(3.0 / 2.0);
const double pythagorean_comma = 12.0 * pure_fifth - octaves_of_twelve_fifths_cents;
const double syntonic_comma = ratio_cents(81.0 / 80.0);
const double schisma = pythagorean_comma - syntonic_comma;

/// Places of the fifths in the circle, by their lower note.
enum FifthFrom { c, g, d, a, e, b, f_sharp, c_sharp, g_sharp, e_flat, b_flat, f };

struct Narrowed {
    FifthFrom fifth;
    double by_cents;
};

/// Pure fifths but for those narrowed.
std::array<double, 12> pure_but(std::initializer_list<Narrowed> narrowed)
{
    std::array<double, 12> fifths{};
    fifths.fill(pure_fifth);
    for (const auto& one : narrowed) fifths[one.fifth] -= one.by_cents;
    return fifths;
}

/// Lets the given fifths share alike what the others leave of seven octaves.
std::array<double, 12> closed_by(std::array<double, 12> fifths, std::initializer_list<FifthFrom> rest)
{
    double left = octaves_of_twelve_fifths_cents;
    for (const FifthFrom fifth : rest) fifths[fifth] = 0.0;
    for (const double fifth : fifths) left -= fifth;
    for (const FifthFrom fifth : rest) fifths[fifth] = left / static_cast<double>(rest.size());
    return fifths;
}

std::array<double, 12> equal()
{
    std::array<double, 12> fifths{};
    fifths.fill(700.0);
    return fifths;
}

std::array<double, 12> werckmeister_3()
{
    const double quarter = pythagorean_comma / 4.0;
    return pure_but({{c, quarter}, {g, quarter}, {d, quarter}, {b, quarter}});
}

std::array<double, 12> kirnberger_3()
{
    const double quarter = syntonic_comma / 4.0;
    return pure_but({{c, quarter}, {g, quarter}, {d, quarter}, {a, quarter}, {f_sharp, schisma}});
}

std::array<double, 12> vallotti()
{
    const double sixth = pythagorean_comma / 6.0;
    return pure_but({{f, sixth}, {c, sixth}, {g, sixth}, {d, sixth}, {a, sixth}, {e, sixth}});
}

std::array<double, 12> young_2()
{
    const double sixth = pythagorean_comma / 6.0;
    return pure_but({{c, sixth}, {g, sixth}, {d, sixth}, {a, sixth}, {e, sixth}, {b, sixth}});
}

std::array<double, 12> young_1()
{
    const double part = syntonic_comma * 3.0 / 16.0;
    return closed_by(pure_but({{c, part}, {g, part}, {d, part}, {a, part}}), {e, b, b_flat, f});
}

/// Eleven like fifths from E flat to G sharp and a wolf.
std::array<double, 12> with_wolf(double fifth_cents)
{
    std::array<double, 12> fifths{};
    fifths.fill(fifth_cents);
    return closed_by(fifths, {g_sharp});
}

std::array<double, 12> just()
{
    const std::array<double, 12> ratios{1.0,       16.0 / 15.0, 9.0 / 8.0,   6.0 / 5.0,
                                        5.0 / 4.0, 4.0 / 3.0,   45.0 / 32.0, 3.0 / 2.0,
                                        8.0 / 5.0, 5.0 / 3.0,   9.0 / 5.0,   15.0 / 8.0};
    std::array<double, 12> fifths{};
    for (std::size_t i = 0; i < 12; ++i) {
        const std::size_t lower = 7 * i % 12;
        const std::size_t upper = (lower + 7) % 12;
        fifths[i] = ratio_cents(ratios[upper] / ratios[lower]) + (upper < lower ? 1200.0 : 0.0);
    }
    return fifths;
}

} // namespace

std::span<const Temperament> all_temperaments()
{
    static const std::array<Temperament, 9> all{{
        {"equal", "equal", equal()},
        {"werckmeister-3", "Werckmeister III", werckmeister_3()},
        {"kirnberger-3", "Kirnberger III", kirnberger_3()},
        {"vallotti", "Vallotti", vallotti()},
        {"young-1", "Young, first", young_1()},
        {"young-2", "Young, second", young_2()},
        {"meantone", "quarter-comma meantone, E flat to G sharp",
         with_wolf(pure_fifth - syntonic_comma / 4.0)},
        {"pythagorean", "Pythagorean, E flat to G sharp", with_wolf(pure_fifth)},
        {"just", "five-limit just on C", just()},
    }};
    return all;
}

const Temperament* find_temperament(std::string_view name)
{
    for (const auto& temperament : all_temperaments())
        if (temperament.name == name) return &temperament;
    return nullptr;
}

std::array<double, 12> cents_above_c(const Temperament& temperament)
{
    std::array<double, 12> cents{};
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < 12; ++i) {
        sum += temperament.fifths_cents[i];
        cents[7 * (i + 1) % 12] = sum - 1200.0 * std::floor(sum / 1200.0);
    }
    return cents;
}

std::array<double, 12> deviations_cents(const Temperament& temperament)
{
    constexpr std::size_t a_above_c = 9;
    auto cents = cents_above_c(temperament);
    const double a_deviation = cents[a_above_c] - 900.0;
    for (std::size_t i = 0; i < 12; ++i) cents[i] -= 100.0 * static_cast<double>(i) + a_deviation;
    return cents;
}

Cents major_third(const Temperament& temperament, int semitones_above_c)
{
    HARPKEEP_EXPECTS(semitones_above_c >= 0 && semitones_above_c < 12);
    const auto cents = cents_above_c(temperament);
    const auto lower = static_cast<std::size_t>(semitones_above_c);
    const std::size_t upper = (lower + 4) % 12;
    return Cents{cents[upper] - cents[lower] + (upper < lower ? 1200.0 : 0.0)};
}

Hertz tempered_pitch(int key, Hertz a4, const Temperament& temperament)
{
    HARPKEEP_EXPECTS(key >= 0);
    return raised(equal_temperament(key, a4),
                  Cents{deviations_cents(temperament)[static_cast<std::size_t>(key % 12)]});
}

} // namespace harpkeep
