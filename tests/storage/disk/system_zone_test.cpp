// The system's zone set anew while the program runs. Offsets are those of the tz database.
#include "storage/disk/system_zone.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "tests/support/journal_fixture.h"

namespace system_zone_test {

using namespace std::chrono;
namespace fs = std::filesystem;

namespace {

constexpr sys_seconds kAugust = sys_days{2026y / 8 / 14};

struct Link {
  fs::path path;
  void to(const std::string& zone) const {
    fs::remove(path);
    fs::create_symlink("/usr/share/zoneinfo/" + zone, path);
  }
};

}  // namespace

TEST_CASE("a zone that the system is set to while the program runs is noticed within seconds") {
  const fixture::Folder folder;
  const Link link{fs::path(folder / "localtime")};
  link.to("America/New_York");
  storage::SystemZone zone(link.path.string());
  (void)zone.offset(kAugust, engine::Ms{0});
  link.to("Asia/Kolkata");
  (void)zone.offset(kAugust, engine::Ms{1000});
  CHECK(zone.offset(kAugust, engine::Ms{5000}) == 330min);
  link.to("America/New_York");
  CHECK(zone.offset(kAugust, engine::Ms{10'000}) == -240min);
  CHECK(zone.offset(kAugust + days{120}, engine::Ms{10'001}) == -300min);  // summer time is over
}

TEST_CASE("a zone chosen in the environment holds, and a link that is gone changes nothing") {
  const fixture::Folder folder;
  const Link link{fs::path(folder / "localtime")};
  link.to("Asia/Kolkata");
  storage::SystemZone chosen(link.path.string(), "Europe/Paris");
  const auto before = chosen.offset(kAugust, engine::Ms{0});
  link.to("America/New_York");
  CHECK(chosen.offset(kAugust, engine::Ms{60'000}) == before);
  storage::SystemZone watched(link.path.string());
  link.to("Asia/Kolkata");
  CHECK(watched.offset(kAugust, engine::Ms{0}) == 330min);
  fs::remove(link.path);
  CHECK(watched.offset(kAugust, engine::Ms{60'000}) == before);
}

}  // namespace system_zone_test
