#include "ui/platform/waker.h"

#include <SDL.h>
#include <doctest/doctest.h>
#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <thread>

#include "ui/platform/display.h"
#include "ui/platform/file_handle.h"

namespace waker_test {

namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;
using ui::FileHandle;
using ui::Waker;

constexpr auto kLong = 5000ms;  // a wait that ends so late has failed
constexpr auto kSoon = 2000ms;  // generous: the test machine may be busy

// A folder that goes away with the test. FIFOs in it stand for input nodes.
struct Folder {
  std::string path;
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "waker_XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() { std::filesystem::remove_all(path); }
  [[nodiscard]] FileHandle node(const std::string& name) const {
    const std::string full = path + "/" + name;
    REQUIRE(::mkfifo(full.c_str(), 0600) == 0);
    return FileHandle(::open(full.c_str(), O_RDWR | O_CLOEXEC));
  }
};

struct Pipe {
  FileHandle out, in;
  Pipe() {
    int ends[2] = {-1, -1};
    REQUIRE(::pipe2(ends, O_CLOEXEC | O_NONBLOCK) == 0);
    out = FileHandle(ends[0]);
    in = FileHandle(ends[1]);
  }
};

void put(const FileHandle& f) { REQUIRE(::write(f.get(), "x", 1) == 1); }

ui::WakeReason timed_wait(Waker& w, std::chrono::milliseconds most, Clock::duration& took) {
  const auto start = Clock::now();
  ui::WakeReason woken = w.wait(most);
  took = Clock::now() - start;
  return woken;
}

// Video must be up for SDL to wait; the dummy driver's polling is enough for these tests.
ui::Display small_display() {
  ui::DisplayOptions o;
  o.width_px = o.height_px = 16;
  auto d = ui::Display::open_headless(o);
  REQUIRE(d.ok());
  SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
  return std::move(d).value();
}

}  // namespace

TEST_CASE("only the window servers are left to SDL") {
  CHECK(Waker::source_for("x11") == Waker::Source::Window);
  CHECK(Waker::source_for("wayland") == Waker::Source::Window);
  for (const std::string driver : {"KMSDRM", "dummy", "offscreen", "evdev"})
    CHECK(Waker::source_for(driver) == Waker::Source::InputNodes);
}

TEST_CASE("an event on a node ends the wait, once") {
  const Folder folder;
  const FileHandle panel = folder.node("event0");
  Waker waker(Waker::Source::InputNodes, folder.path);
  REQUIRE(waker.nodes() == 1);
  CHECK(waker.wait(10ms).timed_out());
  put(panel);
  Clock::duration took{};
  CHECK(timed_wait(waker, kLong, took).input);
  CHECK(took < kSoon);
  CHECK(waker.wait(10ms).timed_out());
}

TEST_CASE("files of other names in the folder are left alone") {
  const Folder folder;
  const FileHandle other = folder.node("mouse0");
  CHECK(Waker(Waker::Source::InputNodes, folder.path).nodes() == 0);
}

TEST_CASE("a panel plugged in later is heard") {
  const Folder folder;
  Waker waker(Waker::Source::InputNodes, folder.path);
  const FileHandle panel = folder.node("event3");
  CHECK(waker.wait(kLong).input);
  REQUIRE(waker.nodes() == 1);
  put(panel);
  CHECK(waker.wait(kLong).input);
}

TEST_CASE("a panel that is pulled is dropped and does not keep the loop awake") {
  const Folder folder;
  auto panel = std::make_unique<FileHandle>(folder.node("event0"));
  Waker waker(Waker::Source::InputNodes, folder.path);
  std::filesystem::remove(folder.path + "/event0");
  panel.reset();
  CHECK(waker.wait(kLong).input);
  CHECK(waker.nodes() == 0);
  CHECK(waker.wait(10ms).timed_out());
}

TEST_CASE("without a folder of nodes it just sleeps") {
  Waker waker(Waker::Source::InputNodes, "/no/such/folder");
  Clock::duration took{};
  CHECK(timed_wait(waker, 30ms, took).timed_out());
  CHECK(took >= 29ms);
}

TEST_CASE("a watched file is named when it is ready, with either source") {
  const ui::Display display = small_display();
  for (const auto source : {Waker::Source::InputNodes, Waker::Source::Window}) {
    const Folder folder;
    const Pipe stick, other;
    Waker waker(source, folder.path);
    waker.watch(stick.out.get(), POLLIN);
    waker.watch(other.out.get(), POLLIN);
    put(stick.in);
    std::vector<int> fds;
    for (int tries = 0; fds.empty() && tries < 10; ++tries) fds = waker.wait(kLong).fds;
    CHECK(fds == std::vector<int>{stick.out.get()});
    waker.unwatch(stick.out.get());
    SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
    CHECK(waker.wait(20ms).fds.empty());
  }
}

TEST_CASE("a file that stays ready is named in every wait, one that became ready between too") {
  const ui::Display display = small_display();
  const Pipe stick;
  Waker waker(Waker::Source::Window);
  waker.watch(stick.out.get(), POLLIN);
  put(stick.in);
  std::this_thread::sleep_for(50ms);  // the thread has seen it before anybody waits
  int named = 0;
  for (int i = 0; i < 10; ++i) {
    SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
    named += waker.wait(200ms).fds.empty() ? 0 : 1;
  }
  CHECK(named >= 9);
  char read_away = 0;
  REQUIRE(::read(stick.out.get(), &read_away, 1) == 1);
  static_cast<void>(waker.wait(50ms));  // may still tell what was seen before
  CHECK(waker.wait(50ms).fds.empty());
}

TEST_CASE("wake from another thread ends a wait, with either source") {
  const ui::Display display = small_display();
  for (const auto source : {Waker::Source::InputNodes, Waker::Source::Window}) {
    const Folder folder;
    Waker waker(source, folder.path);
    std::thread other([&] {
      std::this_thread::sleep_for(20ms);
      waker.wake();
    });
    Clock::duration took{};
    CHECK(timed_wait(waker, kLong, took).input);
    CHECK(took < kSoon);
    other.join();
    SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
  }
}

TEST_CASE("a wake before the wait is not lost") {
  const Folder folder;
  Waker waker(Waker::Source::InputNodes, folder.path);
  waker.wake();
  CHECK(waker.wait(kLong).input);
}

}  // namespace waker_test
