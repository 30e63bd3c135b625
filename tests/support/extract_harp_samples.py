#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Takes the harp's samples out of Debian's soundfonts: the raw recording, never the loop, left channel only.

usage: extract_harp_samples.py SET SOUNDFONT FOLDER LICENCE INDEX
appends one row a sample to the CSV file INDEX. Reads SF2, SF3 (Ogg Vorbis inside) and GUS patches (.pat)."""
import csv
import pathlib
import struct
import sys
import wave

HARP_PROGRAM = 46  # General MIDI, counted from 0
NOTES = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"]


def note_name(key):
    return f"{NOTES[key % 12]}{key // 12 - 1}"


def key_of_frequency(hz):
    import math
    return round(69 + 12 * math.log2(hz / 440.0))


def write_wav(path, rate, data):
    with wave.open(str(path), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(rate)
        out.writeframes(data)


def chunks(data, at, end):
    """(name, start, length) of the RIFF chunks between two offsets."""
    while at + 8 <= end:
        name, length = data[at:at + 4].decode("latin-1"), struct.unpack_from("<I", data, at + 4)[0]
        yield name, at + 8, length
        at += 8 + length + (length & 1)


def soundfont_chunks(data):
    """Start and length of the chunks inside the LISTs of a soundfont."""
    found = {}
    for name, start, length in chunks(data, 12, len(data)):
        if name == "LIST":
            for inner, inner_start, inner_length in chunks(data, start + 4, start + length):
                found[inner] = (inner_start, inner_length)
    return found


def records(data, place, layout):
    start, length = place
    return [struct.unpack_from(layout, data, start + i) for i in range(0, length, struct.calcsize(layout))]


def harp_samples_of_soundfont(data):
    """(root key, rate, extension, bytes) of each left or mono sample of program 46 in bank 0."""
    place = soundfont_chunks(data)
    presets = records(data, place["phdr"], "<20sHHHIII")
    preset_bags, preset_generators = records(data, place["pbag"], "<HH"), records(data, place["pgen"], "<HH")
    instruments = records(data, place["inst"], "<20sH")
    bags, generators = records(data, place["ibag"], "<HH"), records(data, place["igen"], "<HH")
    headers = records(data, place["shdr"], "<20sIIIIIBbHH")
    pool = place["smpl"][0]

    def zones(all_bags, all_generators, first, last):
        for bag in range(first, last):
            yield dict(all_generators[all_bags[bag][0]:all_bags[bag + 1][0]])

    preset = next(i for i, p in enumerate(presets[:-1]) if p[1] == HARP_PROGRAM and p[2] == 0)
    seen = set()
    for zone in zones(preset_bags, preset_generators, presets[preset][3], presets[preset + 1][3]):
        if 41 not in zone:  # generator 41: instrument
            continue
        for part in zones(bags, generators, instruments[zone[41]][1], instruments[zone[41] + 1][1]):
            if 53 not in part or part[53] in seen:  # generator 53: sample
                continue
            seen.add(part[53])
            _, first, last, _, _, rate, root, _, _, kind = headers[part[53]]
            if kind & 2:  # right
                continue
            root = part.get(58, root)  # generator 58: overriding root key
            if kind & 16:  # SF3: the pool holds Ogg files, counted in bytes
                yield root, rate, "ogg", data[pool + first:pool + last]
            else:
                yield root, rate, "wav", data[pool + 2 * first:pool + 2 * last]


def harp_samples_of_patch(data):
    """The same of a GUS patch: 16-bit signed samples only."""
    if data[:12] != b"GF1PATCH110\0":
        sys.exit("not a GUS patch")
    at, count = 129 + 63 + 47, data[129 + 63 + 6]
    for _ in range(count):
        size, _, _, rate, _, _, root_millihertz = struct.unpack_from("<IIIHIII", data, at + 8)
        modes = data[at + 55]
        if modes & 3 != 1:
            sys.exit("a sample of the patch is not 16 bits, signed")
        yield key_of_frequency(root_millihertz / 1000.0), rate, "wav", data[at + 96:at + 96 + size]
        at += 96 + size


def main():
    set_name, soundfont, folder, licence, index = sys.argv[1:]
    data = pathlib.Path(soundfont).read_bytes()
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    samples = harp_samples_of_patch(data) if soundfont.endswith(".pat") else harp_samples_of_soundfont(data)
    count = 0
    with open(index, "a", newline="", encoding="utf-8") as file:
        rows = csv.writer(file, lineterminator="\n")
        for root, rate, ending, content in sorted(samples):
            path = folder / f"{note_name(root).replace('#', 's')}.{ending}"
            if ending == "wav":
                write_wav(path, rate, content)
            else:
                path.write_bytes(content)
            rows.writerow([set_name, note_name(root), f"{folder.name}/{path.name}", licence])
            count += 1
    print(f"{set_name}: {count} samples")
    return 0 if count else 1


if __name__ == "__main__":
    sys.exit(main())
