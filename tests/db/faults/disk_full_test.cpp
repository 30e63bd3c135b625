// SPDX-License-Identifier: MIT
#include "db/exchange/whole_ledger.hpp"
#include "db/ledger/backup.hpp"
#include "db/ledger/verify.hpp"
#include "db/records/notes.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

#include <cerrno>
#include <cstring>
#include <sys/mount.h>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

/// A disk of so many bytes, in memory; only root may mount one.
class SmallDisk {
  public:
    explicit SmallDisk(const char* size)
        : mounted_(mount("harpkeep-test", folder_.path().c_str(), "tmpfs", 0, size) == 0),
          reason_(std::strerror(errno))
    {
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk()
    {
        if (mounted_) umount2(folder_.path().c_str(), MNT_DETACH);
    }
    [[nodiscard]] bool is_there() const
    {
        if (!mounted_) WARN("left out: no small disk can be mounted here (" << reason_ << ")");
        return mounted_;
    }
    [[nodiscard]] std::string operator/(const std::string& name) const { return folder_ / name; }
    [[nodiscard]] const std::filesystem::path& path() const { return folder_.path(); }

  private:
    TemporaryFolder folder_;
    bool mounted_;
    std::string reason_;
};

} // namespace

TEST_CASE("a full disk: what was kept stays, the rest is told, and writing goes on when there is room",
          "[db][faults]")
{
    const SmallDisk disk{"size=3m"};
    if (!disk.is_there()) return;
    const TemporaryFolder elsewhere;
    tests::write_bytes(elsewhere / "photo.jpg", std::string(200'000, 'p'));
    tests::write_bytes(disk / "ballast", std::string(500'000, 'b'));
    auto ledger = db::Ledger::open(disk / "ledger", db::Access::create, an_evening).value();
    std::size_t kept = 0;
    std::optional<Error> told;
    for (int i = 0; i < 100 && !told; ++i) {
        const std::string photo = elsewhere / std::to_string(i);
        tests::write_bytes(photo, std::string(150'000, 'p') + std::to_string(i)); // each another file
        const auto id = db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "see"}, {photo});
        if (id)
            ++kept;
        else
            told = id.error();
    }
    REQUIRE(told);
    CHECK(told->code == ErrorCode::unavailable);
    CHECK(told->message.find("full") != std::string::npos);
    CHECK(kept > 3);
    CHECK(db::notes(ledger)->size() == kept);
    CHECK(db::verify(ledger)->is_sound());

    CHECK(db::back_up(ledger, disk / "backup").error().code == ErrorCode::unavailable);
    CHECK(db::export_ledger(ledger, db::LedgerForm::json, disk / "out.json", an_evening).error().code ==
          ErrorCode::unavailable);
    CHECK_FALSE(db::export_ledger(ledger, db::LedgerForm::csv, disk / "out", an_evening));
    for (const auto& entry : std::filesystem::directory_iterator{disk.path()}) {
        const auto name = entry.path().filename().string();
        CAPTURE(name);
        CHECK((name == "ballast" || name.starts_with("ledger")));
    }
    std::filesystem::remove(disk / "ballast");
    CHECK(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "room again"}));
    CHECK(db::notes(ledger)->size() == kept + 1);
}

TEST_CASE("a disk that is full from the start: no ledger is begun by half", "[db][faults]")
{
    const SmallDisk disk{"size=64k"};
    if (!disk.is_there()) return;
    const auto ledger = db::Ledger::open(disk / "ledger", db::Access::create, an_evening);
    REQUIRE_FALSE(ledger);
    CHECK(ledger.error().code == ErrorCode::unavailable);
    const auto again = db::Ledger::open(disk / "ledger", db::Access::read, an_evening);
    CHECK_FALSE(again);
}
