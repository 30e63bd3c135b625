// SPDX-License-Identifier: MIT
#include "recording_room.hpp"

#include <algorithm>

#include <unistd.h>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// The program ends with `code`, says each of `parts`, and leaves the ledger as it was, byte for byte.
void check_refused(const RecordingRoom& room, const std::string& arguments, int code,
                   const std::vector<std::string>& parts)
{
    const auto before = read_bytes(room.ledger_path());
    const auto run = room.run(arguments);
    INFO(run.errors);
    CHECK(run.code == code);
    CHECK(run.out.empty());
    for (const auto& part : parts) CHECK(run.says(part));
    CHECK(read_bytes(room.ledger_path()) == before);
    CHECK(room.stored_checks() == 0);
}

/// The recording is used in spite of what is the matter with it, which is said.
Json check_used(const RecordingRoom& room, const std::string& file, const std::string& remark)
{
    const auto run = room.run("check " + file + " --harp Wren --json");
    INFO(run.errors);
    REQUIRE(run.code == 0);
    const auto check = run.json();
    const auto& remarks = check["remarks"];
    CAPTURE(remarks.dump());
    CHECK(std::any_of(remarks.begin(), remarks.end(), [&](const Json& line) {
        return line.get<std::string>().find(remark) != std::string::npos;
    }));
    CHECK(room.stored_checks() == 1);
    return check;
}

/// How a program is run by somebody without rights, when the tests run with all of them.
std::optional<std::string> as_nobody()
{
    if (::geteuid() != 0) return "";
    const std::string nobody = "setpriv --reuid=65534 --regid=65534 --clear-groups";
    const auto can_run = nobody + " " + HARPKEEP_PROGRAM + " --version >/dev/null 2>&1";
    if (std::system(can_run.c_str()) != 0) return std::nullopt;
    return nobody;
}

/// A file system of its own, small enough to be filled.
class SmallDisk {
  public:
    explicit SmallDisk(std::string path) : path_(std::move(path))
    {
        std::filesystem::create_directory(path_);
        mounted_ =
            std::system(fmt::format("mount -t tmpfs -o size=1m none {} 2>/dev/null", path_).c_str()) == 0;
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk()
    {
        if (mounted_) static_cast<void>(std::system(("umount " + path_).c_str()));
    }
    [[nodiscard]] bool mounted() const { return mounted_; }
    [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + "/" + name; }
    /// Takes all the room that is left.
    void fill() const
    {
        static_cast<void>(std::system(fmt::format("cat /dev/zero >{}/ballast 2>/dev/null", path_).c_str()));
    }

  private:
    std::string path_;
    bool mounted_ = false;
};

} // namespace

TEST_CASE("bad input: a file that is not there", "[cli]")
{
    RecordingRoom room;
    check_refused(room, "check " + room.file("gone.wav") + " --harp Wren", 3,
                  {"cannot open " + room.file("gone.wav"), "check the name and the folder"});
    check_refused(room, "pluck " + room.file("gone.wav"), 3, {"cannot open"});
}

TEST_CASE("bad input: an empty file, a folder, a text", "[cli]")
{
    RecordingRoom room;
    write_bytes(room.file("empty.wav"), "");
    check_refused(room, "check " + room.file("empty.wav") + " --harp Wren", 4,
                  {"is empty (0 bytes)", "again"});
    check_refused(room, "check " + room.folder().string() + " --harp Wren", 4, {"is a folder"});
    write_bytes(room.file("list.txt"), "Strings to buy: 3C, 2A\n");
    check_refused(room, "check " + room.file("list.txt") + " --harp Wren", 4, {"list.txt", "wav, flac"});
    write_bytes(room.file("list.wav"), "Strings to buy: 3C, 2A\n");
    check_refused(room, "check " + room.file("list.wav") + " --harp Wren", 4, {"list.wav", "wav, flac"});
}

TEST_CASE("bad input: a silent recording", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("silent.wav", std::vector<float>(96000, 0.0F), 32000.0);
    check_refused(room, "check " + file + " --harp Wren", 4, {"is silent", "microphone", "record again"});
}

TEST_CASE("bad input: sound in which no string of the harp is", "[cli]")
{
    RecordingRoom room;
    std::vector<float> hiss(160000);
    RandomSource random(3);
    for (float& sample : hiss) sample = static_cast<float>(0.05 * random.normal());
    check_refused(room, "check " + room.write("hiss.wav", hiss, 32000.0) + " --harp Wren", 4,
                  {"no string of Wren was found", "the right harp and A4"});
}

TEST_CASE("bad input: sound without a string, and too loud as well, is told both", "[cli]")
{
    RecordingRoom room;
    std::vector<float> square(96000);
    for (std::size_t n = 0; n < square.size(); ++n) square[n] = n / 40 % 2 ? 1.0F : -1.0F;
    check_refused(room, "check " + room.write("square.wav", square, 32000.0) + " --harp Wren", 4,
                  {"no string of Wren was found", "overdriven"});
}

TEST_CASE("bad input: one recording named twice, under two names", "[cli][regression]")
{
    RecordingRoom room;
    const auto file = room.write("passes.wav", room.play_passes());
    std::filesystem::copy_file(file, room.file("again.wav"));
    check_refused(room, "check " + file + " " + room.file("again.wav") + " --harp Wren", 2,
                  {"passes.wav", "again.wav", "the same recording"});
}

TEST_CASE("bad input: figures that are none", "[cli][regression]")
{
    RecordingRoom room;
    for (const auto* figure : {"nan", "-nan", "inf", "1e999", "four"})
        check_refused(room, fmt::format("check gone.wav --harp Wren --a4 {}", figure), 2, {"--a4", figure});
    check_refused(room, "replace --by 2026-06-01 --lasting nan", 2, {"--lasting", "nan"});
    check_refused(room, "pluck gone.wav --near nan", 2, {"--near", "nan"});
}

TEST_CASE("bad input: a recording that was cut off is used as far as it goes", "[cli]")
{
    RecordingRoom room;
    auto bytes = read_bytes(room.write("whole.wav", room.play_passes()));
    bytes.resize(bytes.size() * 6 / 10);
    write_bytes(room.file("cut.wav"), bytes);
    const auto check = check_used(room, room.file("cut.wav"), "cut.wav");
    CHECK(check["readings"].size() >= 12); // of 24, when two fifths are gone
    CHECK_FALSE(check["steps"].empty());
}

TEST_CASE("bad input: a phone recording without its end names what to do", "[cli]")
{
    RecordingRoom room;
    auto bytes = read_bytes(room.write("whole.m4a", room.play_passes()));
    bytes.resize(bytes.size() * 6 / 10);
    write_bytes(room.file("cut.m4a"), bytes);
    check_refused(room, "check " + room.file("cut.m4a") + " --harp Wren", 4,
                  {"cut.m4a", "was cut off when it was copied"});
}

TEST_CASE("bad input: clipped plucks of an overdriven recording are doubted, and its player told", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("loud.wav", room.play_passes({.gain_db = 12.0, .clip_level = 0.6}));
    const auto check = check_used(room, file, "overdriven");
    const auto& readings = check["readings"];
    const auto clipped = std::count_if(readings.begin(), readings.end(), [](const Json& reading) {
        return reading["reasons"].dump().find("clipped") != std::string::npos;
    });
    CHECK(clipped >= 20); // of 24: the weakest plucks stay below the limit
    CHECK(check["steps"].empty());
}

TEST_CASE("bad input: a constant offset is ignored, and told", "[cli]")
{
    RecordingRoom room;
    const auto check = check_used(room, room.write("offset.wav", room.play_passes({.dc_offset = 0.1})),
                                  "constant offset of 10.0 %");
    CHECK(check["steps"].size() == 16);
}

TEST_CASE("bad input: stereo with one dead channel gives what the live one holds", "[cli]")
{
    RecordingRoom room;
    const auto recording = room.play_passes();
    std::vector<float> stereo;
    for (const float sample : recording.samples) stereo.insert(stereo.end(), {0.0F, sample});
    const auto check = check_used(room, room.write("stereo.wav", stereo, 32000.0, 2), "channel");
    CHECK(check["steps"].size() == 16);
}

TEST_CASE("bad input: of telephone sound it is said which strings it cannot tell", "[cli]")
{
    RecordingRoom room;
    REQUIRE(room.run("harp add Kite --lowest 2A --highest 0G").code == 0);
    // 8000 samples a second hold 3400 Hz (ITU-T G.712, from memory): all first partials, but from A6 (1760
    // Hz) up no second one.
    const auto eight = room.write("telephone.wav", room.play_passes({.sample_rate_hz = 8000.0}));
    const auto wren = room.run("check " + eight + " --harp Wren --no-store --json");
    REQUIRE(wren.code == 0);
    CHECK(wren.json()["steps"].size() == 16); // an octave in the middle is there
    CHECK(wren.says("record at 44100 or 48000"));
    const auto kite = room.run("check " + eight + " --harp Kite --no-store");
    CHECK(kite.says("no second partial is left of 1A natural and sharp, 1B, 1C, 1D, 1E, 0F, 0G"));
    // 6000 samples a second hold 2550 Hz: E7 natural is 2637 Hz.
    const auto six = room.write("narrow.wav", room.play_passes({.sample_rate_hz = 6000.0}));
    const auto narrow = room.run("check " + six + " --harp Kite --no-store");
    CHECK(narrow.says("cannot be measured, as they sound above 2550 Hz: 1E natural and sharp, 0F, 0G;"));
}

TEST_CASE("bad input: a harp or ledger that is not there", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("passes.wav", room.play_passes());
    check_refused(room, "check " + file + " --harp Linnet", 3, {"Linnet", "the ledger has Wren"});
    const auto other = room.run("check " + file + " --harp Wren", "", room.file("other.harpkeep"));
    CHECK(other.code == 3);
    CHECK(other.says("other.harpkeep"));
    CHECK_FALSE(std::filesystem::exists(room.file("other.harpkeep")));
}

TEST_CASE("bad input: a ledger that may not be written is left alone, and the check is not lost silently",
          "[cli]")
{
    const auto nobody = as_nobody();
    if (!nobody) {
        WARN("skipped: the tests run as root, and without rights the program cannot be reached");
        return;
    }
    RecordingRoom room;
    const auto file = room.write("passes.wav", room.play_passes());
    for (const auto* name : {"out", "errors"}) {
        write_bytes(room.file(name), "");
        std::filesystem::permissions(room.file(name), std::filesystem::perms::all);
    }
    const auto before = read_bytes(room.ledger_path());
    const bool folder_too = GENERATE(false, true);
    CAPTURE(folder_too);
    std::filesystem::permissions(room.ledger_path(), std::filesystem::perms(0444));
    std::filesystem::permissions(room.folder(), std::filesystem::perms(folder_too ? 0555 : 0777));
    const auto run = room.run("check " + file + " --harp Wren", *nobody);
    const auto printed = room.run("check " + file + " --harp Wren --no-store", *nobody);
    std::filesystem::permissions(room.folder(), std::filesystem::perms(0700));
    INFO(run.errors);
    CHECK(run.code == 6);
    CHECK(run.says(room.ledger_path()));
    CHECK(run.says("--ledger"));
    CHECK(printed.code == 0); // reading needs no leave to write
    CHECK(printed.says("16 of 16 steps measured"));
    CHECK(read_bytes(room.ledger_path()) == before);
}

TEST_CASE("bad input: a full disk is told, and the ledger on it stays as it was", "[cli]")
{
    RecordingRoom room;
    const SmallDisk disk(room.file("disk"));
    if (!disk.mounted()) {
        WARN("skipped: only root may mount a small disk");
        return;
    }
    const auto file = room.write("passes.wav", room.play_passes());
    std::filesystem::copy_file(room.ledger_path(), disk / "full.harpkeep");
    disk.fill();
    const auto before = read_bytes(disk / "full.harpkeep");
    const auto run = room.run("check " + file + " --harp Wren", "", disk / "full.harpkeep");
    INFO(run.errors);
    CHECK(run.code == 6);
    CHECK(run.says("full"));
    CHECK(read_bytes(disk / "full.harpkeep") == before);
    CHECK(room.run("harp list", "", disk / "full.harpkeep").says("Wren"));
}
