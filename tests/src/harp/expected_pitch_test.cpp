// SPDX-License-Identifier: MIT
#include "harp/expected_pitch.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

struct TableRow {
    const char* name; // scientific
    int alteration;
    double hertz;
};

double table_pitch(const TableRow& row)
{
    return equal_temperament(key_number(*place_from_scientific_name(row.name), row.alteration), 440.0_Hz)
        .value();
}

} // namespace

// CRC Handbook of Chemistry and Physics, section 14 "Musical scales", Table 1 (equal temperament, A4 = 440
// Hz).
TEST_CASE("equal temperament: the 24 frequencies of the CRC Handbook", "[harp][reference]")
{
    const auto row =
        GENERATE(TableRow{"C0", 0, 16.352}, TableRow{"C0", 1, 17.324}, TableRow{"D0", 0, 18.354},
                 TableRow{"D0", 1, 19.445}, TableRow{"E0", 0, 20.602}, TableRow{"F0", 0, 21.827},
                 TableRow{"C2", 0, 65.406}, TableRow{"C2", 1, 69.296}, TableRow{"D2", 0, 73.416},
                 TableRow{"D2", 1, 77.782}, TableRow{"E2", 0, 82.407}, TableRow{"F2", 0, 87.307});
    CAPTURE(row.name);
    CHECK(table_pitch(row) == Approx(row.hertz).margin(0.0005)); // half of the table's last digit

    const auto upper =
        GENERATE(TableRow{"C4", 0, 261.63}, TableRow{"C4", 1, 277.18}, TableRow{"D4", 0, 293.66},
                 TableRow{"D4", 1, 311.13}, TableRow{"E4", 0, 329.63}, TableRow{"F4", 0, 349.23},
                 TableRow{"C6", 0, 1046.50}, TableRow{"C6", 1, 1108.73}, TableRow{"D6", 0, 1174.66},
                 TableRow{"D6", 1, 1244.51}, TableRow{"E6", 0, 1318.51}, TableRow{"F6", 0, 1396.91});
    CAPTURE(upper.name);
    CHECK(table_pitch(upper) == Approx(upper.hertz).margin(0.005)); // half of the table's last digit
}

// B. H. Suits, Physics of Music - Notes, Michigan Technological University.
TEST_CASE("equal temperament: frequencies of the Michigan Tech table", "[harp][reference]")
{
    const auto row = GENERATE(TableRow{"C1", 0, 32.70}, TableRow{"D1", 0, 36.71}, TableRow{"E1", 0, 41.20},
                              TableRow{"F1", 0, 43.65}, TableRow{"G1", 0, 49.00}, TableRow{"A1", 0, 55.00},
                              TableRow{"B1", 0, 61.74}, TableRow{"C3", 0, 130.81}, TableRow{"G3", 0, 196.00},
                              TableRow{"A3", 0, 220.00}, TableRow{"G4", 0, 392.00}, TableRow{"E5", 0, 659.25},
                              TableRow{"A6", 0, 1760.00});
    CAPTURE(row.name);
    CHECK(table_pitch(row) == Approx(row.hertz).margin(0.005 + 1e-9)); // half of the table's last digit
}

TEST_CASE("equal temperament: key 0 of the MIDI Tuning Standard is 8.1757989156 Hz", "[harp][reference]")
{
    CHECK(equal_temperament(0, 440.0_Hz).value() ==
          Approx(8.1757989156).margin(5e-11)); // half of the last digit
}

TEST_CASE("expected pitch: C flat belongs to the octave of its letter", "[harp]")
{
    const HarpString low_c{.place = {Letter::C, 1}};
    CHECK(expected_pitch(low_c, Position::flat, 440.0_Hz).value() == Approx(30.8677).margin(5e-5)); // = B0
    CHECK(key_number({Letter::C, 4}, -1) == key_number({Letter::B, 3}, 0));
    CHECK(key_number({Letter::E, 4}, 1) == key_number({Letter::F, 4}, 0));
}

TEST_CASE("expected pitch: follows the reference pitch", "[harp][reference]")
{
    const HarpString middle_c{.place = {Letter::C, 4}};
    // Exact arithmetic on the definition, rounded to four decimals.
    CHECK(expected_pitch(middle_c, Position::natural, 442.0_Hz).value() == Approx(262.8148).margin(5e-5));
    CHECK(expected_pitch(middle_c, Position::natural, 430.0_Hz).value() == Approx(255.6795).margin(5e-5));
    CHECK(expected_pitch(middle_c, Position::natural, 415.0_Hz).value() == Approx(246.7605).margin(5e-5));
}
