// SPDX-License-Identifier: MIT
// A helper that listens as packaging/tablet/stick does. What that script itself answers is held by
// tests/packaging/stick_test.sh.
#include "storage/disk/stick_helper.h"

#include <doctest/doctest.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <optional>
#include <thread>

#include "storage/disk/removable_media.h"

namespace stick_helper_test {

using storage::HelperSays;

namespace {

// Takes one call and gives one answer; none: stays silent until the caller has gone.
class Helper {
 public:
  explicit Helper(std::optional<std::string> answer) {
    folder_ = std::filesystem::temp_directory_path() / "duskwalk-helper-XXXXXX";
    folder_ = ::mkdtemp(folder_.data());
    listener_ = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    std::strcpy(address.sun_path, path().c_str());
    REQUIRE(::bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
    REQUIRE(::listen(listener_, 1) == 0);
    thread_ = std::thread([this, answer] { serve(answer); });
  }
  ~Helper() {
    thread_.join();
    ::close(listener_);
    std::filesystem::remove_all(folder_);
  }
  Helper(const Helper&) = delete;
  Helper& operator=(const Helper&) = delete;

  [[nodiscard]] std::string path() const { return folder_ + "/socket"; }
  [[nodiscard]] const std::string& heard() const { return heard_; }

 private:
  void serve(const std::optional<std::string>& answer) {
    const int call = ::accept(listener_, nullptr, nullptr);
    char bytes[64];
    for (ssize_t got = 1; got > 0;) {
      got = ::recv(call, bytes, sizeof bytes, 0);
      if (got > 0) heard_.append(bytes, static_cast<std::size_t>(got));
    }
    if (answer)
      (void)::send(call, answer->data(), answer->size(), MSG_NOSIGNAL);
    else
      std::this_thread::sleep_for(std::chrono::milliseconds(1300));
    ::close(call);
  }

  std::string folder_, heard_;
  int listener_ = -1;
  std::thread thread_;
};

struct Answer {
  std::string name, text;
  HelperSays means;
};

}  // namespace

TEST_CASE("the helper's answer is one of its words, or counts for nothing") {
  const Answer all[] = {
      {"let go of", "unmounted\n", HelperSays::Unmounted},
      {"in use", "busy\n", HelperSays::Busy},
      {"not its own", "refused\n", HelperSays::Refused},
      {"cut off", "unmounted", HelperSays::Absent},
      {"another language", "gelöst\n", HelperSays::Absent},
      {"hung up", "", HelperSays::Absent},
      {"endless", std::string(100'000, 'x'), HelperSays::Absent},
  };
  for (const Answer& one : all) {
    CAPTURE(one.name);
    Helper helper(one.text);
    CHECK(storage::ask_to_unmount("/media/duskwalk/BEES", helper.path()) == one.means);
  }
}

TEST_CASE("the mount point is asked for as one line") {
  std::string heard;
  {
    Helper helper("unmounted\n");
    (void)storage::ask_to_unmount("/media/duskwalk/BEES", helper.path());
    heard = helper.heard();
  }
  CHECK(heard == "/media/duskwalk/BEES\n");
  CHECK(storage::ask_to_unmount("/media/a\n/", "/nowhere") == HelperSays::Refused);
}

TEST_CASE("nobody listens, or nobody answers in time") {
  CHECK(storage::ask_to_unmount("/media/x", "/nowhere/at/all") == HelperSays::Absent);
  CHECK(storage::ask_to_unmount("/media/x", std::string(200, 'x')) == HelperSays::Absent);
  Helper silent(std::nullopt);
  CHECK(storage::ask_to_unmount("/media/x", silent.path(), std::chrono::seconds{1}) ==
        HelperSays::Absent);
}

TEST_CASE("a stick that the helper lets go of may be pulled") {
  const std::string folder = std::filesystem::temp_directory_path();
  const std::string line = "60 30 8:17 / " + folder + " rw - vfat /dev/sdb1 rw\n";
  {
    Helper helper("unmounted\n");
    CHECK(storage::release(folder, line, helper.path()).value() == storage::Released::Unmounted);
  }
  Helper helper("busy\n");
  CHECK(storage::release(folder, line, helper.path()).status().code() == engine::Code::Busy);
}

}  // namespace stick_helper_test
