// SPDX-License-Identifier: MIT
#include "storage/disk/stick_helper.h"

#include <sys/socket.h>
#include <sys/time.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstring>

namespace storage {
namespace {

class Connection {
 public:
  explicit Connection(const std::string& path)
      : fd_(::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    open_ = fd_ >= 0 && path.size() < sizeof address.sun_path;
    if (!open_) return;
    std::memcpy(address.sun_path, path.data(), path.size());
    open_ = ::connect(fd_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  ~Connection() {
    if (fd_ >= 0) ::close(fd_);
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  // Whole, and then nothing more is said.
  bool say(const std::string& text) const {
    const auto sent = open_ ? ::send(fd_, text.data(), text.size(), MSG_NOSIGNAL) : -1;
    return sent == static_cast<ssize_t>(text.size()) && ::shutdown(fd_, SHUT_WR) == 0;
  }

  // Up to the other's end, a short answer.
  [[nodiscard]] std::string hear(std::chrono::seconds most) const {
    const timeval limit{most.count(), 0};
    ::setsockopt(fd_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    std::string answer;
    char bytes[64];
    while (answer.size() < 256) {
      const auto got = ::recv(fd_, bytes, sizeof bytes, 0);
      if (got < 0) return {};
      if (got == 0) break;
      answer.append(bytes, static_cast<std::size_t>(got));
    }
    return answer;
  }

 private:
  int fd_;
  bool open_ = false;
};

}  // namespace

HelperSays ask_to_unmount(const std::string& mount_point, const std::string& socket,
                          std::chrono::seconds most) {
  if (mount_point.find('\n') != std::string::npos) return HelperSays::Refused;
  const Connection helper(socket);
  if (!helper.say(mount_point + "\n")) return HelperSays::Absent;
  const std::string answer = helper.hear(most);
  if (answer == "unmounted\n") return HelperSays::Unmounted;
  if (answer == "busy\n") return HelperSays::Busy;
  return answer == "refused\n" ? HelperSays::Refused : HelperSays::Absent;
}

}  // namespace storage
