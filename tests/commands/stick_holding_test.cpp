#include "ui/commands/stick_holding.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>

namespace stick_holding_test {

using namespace ui;
namespace fs = std::filesystem;

namespace {

// A folder of its own that goes with the case.
struct Place {
  Place() {
    std::string pattern = (fs::temp_directory_path() / "duskwalk-XXXXXX").string();
    REQUIRE(::mkdtemp(pattern.data()) != nullptr);
    top = fs::canonical(pattern);
    fs::create_directories(top / "usb" / "logs");
    fs::create_directories(top / "usb2");
    fs::create_directory_symlink(top / "usb", top / "link");
    fs::create_directory_symlink(top / "usb" / "logs", top / "deep-link");
  }
  ~Place() { fs::remove_all(top); }
  [[nodiscard]] storage::Stick stick(const char* name) const {
    storage::Stick stick;
    stick.path = (top / name).string();
    return stick;
  }
  fs::path top;
};

}  // namespace

TEST_CASE("a stick is known however its folder is named") {
  const Place place;
  const std::vector<storage::Stick> sticks{place.stick("usb")};
  for (const char* name : {"usb", "usb/", "usb/logs", "usb/new", "usb2/../usb", "link", "link/logs",
                           "deep-link", "usb2/../link/new"}) {
    INFO(std::string(name));
    const auto found = stick_holding((place.top / name).string(), sticks);
    REQUIRE(found);
    CHECK(found->path == sticks.front().path);
  }
}

TEST_CASE("a relative path is taken from the current directory") {
  const Place place;
  const std::string relative = fs::relative(place.top / "usb" / "logs").string();
  CHECK(stick_holding(relative, {place.stick("usb")}));
}

TEST_CASE("a folder beside a stick is not on it, whatever its name begins with") {
  const Place place;
  for (const char* name : {"usb2", "usb/..", "link/../..", "nowhere"}) {
    INFO(std::string(name));
    CHECK(!stick_holding((place.top / name).string(), {place.stick("usb")}));
  }
}

TEST_CASE("of sticks mounted on one another the innermost holds the folder") {
  const Place place;
  const auto found = stick_holding((place.top / "usb/logs").string(),
                                   {place.stick("usb/logs"), place.stick("usb")});
  REQUIRE(found);
  CHECK(found->path == place.stick("usb/logs").path);
}

}  // namespace stick_holding_test
