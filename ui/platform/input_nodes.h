// ui/platform/input_nodes.h -- the kernel's input nodes, opened for waking up only.
//
// What is read from them is thrown away; SDL reads its own copy. Nodes that come and go while the
// program runs are noticed (inotify on the folder). Nodes that cannot be opened are left out; the
// user needs read access (Debian: group input), as SDL does.
#pragma once
#include <poll.h>

#include <string>
#include <vector>

#include "ui/platform/file_handle.h"

namespace ui {

class InputNodes {
 public:
  explicit InputNodes(std::string folder);

  // Adds what poll(2) should watch.
  void add_to(std::vector<pollfd>& fds) const;

  // Takes the results of poll(2): drains nodes, closes lost ones, opens new ones. True when there
  // was input.
  bool take(const std::vector<pollfd>& fds);

  [[nodiscard]] int count() const { return static_cast<int>(nodes_.size()); }

 private:
  struct Node {
    std::string path;
    FileHandle file;
  };

  void scan();
  void open_node(const std::string& path);
  [[nodiscard]] bool knows(const std::string& path) const;

  std::string folder_;
  FileHandle changes_;  // inotify
  std::vector<Node> nodes_;
};

}  // namespace ui
