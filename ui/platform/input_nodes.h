// ui/platform/input_nodes.h -- the kernel's input nodes, opened for waking up only.
//
// Of what is read only the time of a finger's press and lift is kept (touch_times.h); SDL reads its
// own copy. Nodes that come and go while the
// program runs are noticed (inotify on the folder). Nodes that cannot be opened are left out; the
// user needs read access (Debian: group input), as SDL does.
#pragma once
#include <poll.h>

#include <string>
#include <vector>

#include "ui/platform/file_handle.h"
#include "ui/platform/touch_times.h"

namespace ui {

class InputNodes {
 public:
  explicit InputNodes(std::string folder);

  // Adds what poll(2) should watch.
  void add_to(std::vector<pollfd>& fds) const;

  // Takes the results of poll(2): drains nodes, closes lost ones, opens new ones. True when there
  // was input.
  bool take(const std::vector<pollfd>& fds);

  // Reads what waits now, outside of poll(2). True when there was anything: the next poll(2) will
  // not tell of it any more.
  bool read_waiting();

  // When that finger came down or was lifted, in milliseconds since boot; once.
  [[nodiscard]] std::optional<std::int64_t> finger_time(std::int64_t finger, bool down) {
    return times_.take(finger, down);
  }

  [[nodiscard]] int count() const { return static_cast<int>(nodes_.size()); }

 private:
  struct Node {
    std::string path;
    FileHandle file;
    bool since_boot = false;  // its clock; of another clock no time is kept
    TouchSlots slots{};
  };

  enum class Drained { Nothing, Some, Gone };
  Drained drain(Node& node);
  void scan();
  void open_node(const std::string& path);
  [[nodiscard]] bool knows(const std::string& path) const;

  std::string folder_;
  FileHandle changes_;  // inotify
  std::vector<Node> nodes_;
  TouchTimes times_;
};

}  // namespace ui
