#include "ui/platform/input_nodes.h"

#include <fcntl.h>
#include <linux/input.h>
#include <sys/inotify.h>
#include <sys/ioctl.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <ctime>
#include <filesystem>
#include <system_error>

namespace ui {
namespace {

// A node that has keys, a touch panel's contact among them. Leaves out what sends all the time,
// such as a tilt sensor. A node that cannot be asked is taken.
bool is_for_people(int fd) {
  std::array<unsigned char, EV_MAX / 8 + 1> kinds{};
  if (::ioctl(fd, EVIOCGBIT(0, kinds.size()), kinds.data()) < 0) return true;
  return (kinds[EV_KEY / 8] >> (EV_KEY % 8) & 1) != 0;
}

void read_away(int fd) {
  std::array<char, 4096> bytes{};
  while (::read(fd, bytes.data(), bytes.size()) > 0) continue;
}

// Asks the kernel to stamp this reader's events with the time since boot.
bool uses_boot_clock(int fd) {
  int clock = CLOCK_BOOTTIME;
  return ::ioctl(fd, EVIOCSCLOCKID, &clock) == 0;
}

short results_for(const std::vector<pollfd>& fds, int fd) {
  for (const pollfd& p : fds)
    if (p.fd == fd) return p.revents;
  return 0;
}

}  // namespace

InputNodes::InputNodes(std::string folder)
    : folder_(std::move(folder)), changes_(::inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {
  // IN_ATTRIB: the device manager gives the rights a moment after it makes the node.
  if (changes_)
    ::inotify_add_watch(changes_.get(), folder_.c_str(), IN_CREATE | IN_ATTRIB | IN_MOVED_TO);
  scan();
}

void InputNodes::add_to(std::vector<pollfd>& fds) const {
  if (changes_) fds.push_back({changes_.get(), POLLIN, 0});
  for (const Node& n : nodes_) fds.push_back({n.file.get(), POLLIN, 0});
}

InputNodes::Drained InputNodes::drain(Node& node) {
  std::array<input_event, 64> events{};
  bool any = false;
  ssize_t got = 0;
  while ((got = ::read(node.file.get(), events.data(), sizeof events)) > 0) {
    any = true;
    const auto count = static_cast<std::size_t>(got) / sizeof(input_event);
    for (std::size_t i = 0; node.since_boot && i < count; ++i)
      if (const auto change = node.slots.take(events[i])) times_.add(*change);
  }
  if (got == 0 || (errno != EAGAIN && errno != EINTR)) return Drained::Gone;
  return any ? Drained::Some : Drained::Nothing;
}

bool InputNodes::read_waiting() {
  bool any = false;
  std::erase_if(nodes_, [&](Node& n) {
    const Drained how = drain(n);
    any = any || how != Drained::Nothing;
    return how == Drained::Gone;
  });
  return any;
}

bool InputNodes::take(const std::vector<pollfd>& fds) {
  bool input = false;
  std::erase_if(nodes_, [&](Node& n) {
    const short got = results_for(fds, n.file.get());
    if (got == 0) return false;
    input = true;
    return drain(n) == Drained::Gone;
  });
  if (changes_ && results_for(fds, changes_.get()) != 0) {
    read_away(changes_.get());
    scan();
    input = true;  // SDL hears of the new device when it is asked for events
  }
  return input;
}

void InputNodes::scan() {
  std::error_code failed;
  for (const auto& entry : std::filesystem::directory_iterator(folder_, failed))
    if (entry.path().filename().string().starts_with("event")) open_node(entry.path().string());
}

void InputNodes::open_node(const std::string& path) {
  if (knows(path)) return;
  FileHandle file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
  if (!file || !is_for_people(file.get())) return;
  const bool since_boot = uses_boot_clock(file.get());
  nodes_.push_back({path, std::move(file), since_boot});
}

bool InputNodes::knows(const std::string& path) const {
  return std::ranges::any_of(nodes_, [&](const Node& n) { return n.path == path; });
}

}  // namespace ui
