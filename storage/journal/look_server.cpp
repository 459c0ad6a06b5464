#include "storage/journal/look_server.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <utility>

#include "storage/disk/held_folder.h"
#include "storage/journal/journal_db.h"

namespace storage {
namespace {

constexpr std::size_t kMostAsking = 8;
constexpr std::size_t kLongestAnswer = 1000;
constexpr char kComing = '.', kDone = 'd', kNone = 'f';

struct Named {
  std::string folder, file;
};

Named socket_of(const std::string& store_path) {
  const std::string path = store_path + ".look";
  const std::size_t slash = path.rfind('/');
  if (slash == path.npos) return {".", path};
  return {path.substr(0, slash + 1), path.substr(slash + 1)};
}

// A socket's address has 107 bytes; a path may be longer. It is named through its open folder.
bool address_of(const HeldFolder& folder, const std::string& file, sockaddr_un& address) {
  const std::string path = fmt::format("/proc/self/fd/{}/{}", folder.fd(), file);
  address = {};
  address.sun_family = AF_UNIX;
  if (path.size() >= sizeof address.sun_path) return false;
  std::memcpy(address.sun_path, path.c_str(), path.size() + 1);
  return true;
}

const sockaddr* as_sockaddr(const sockaddr_un& address) {
  return reinterpret_cast<const sockaddr*>(&address);
}

// A socket that a killed program left; nothing else is removed.
void remove_left_socket(const HeldFolder& folder, const std::string& file) {
  struct stat s {};
  if (::fstatat(folder.fd(), file.c_str(), &s, AT_SYMLINK_NOFOLLOW) == 0 && S_ISSOCK(s.st_mode))
    ::unlinkat(folder.fd(), file.c_str(), 0);
}

bool runs_as(int connected, uid_t one, uid_t other) {
  ucred who{};
  socklen_t size = sizeof who;
  if (::getsockopt(connected, SOL_SOCKET, SO_PEERCRED, &who, &size) != 0) return false;
  return who.uid == one || who.uid == other;
}

bool send_bytes(int to, std::string_view bytes) {
  return ::send(to, bytes.data(), bytes.size(), MSG_DONTWAIT | MSG_NOSIGNAL) ==
         static_cast<ssize_t>(bytes.size());
}

bool send_file(int to, int file) {
  char word = kDone;
  iovec bytes{&word, 1};
  alignas(cmsghdr) char room[CMSG_SPACE(sizeof(int))]{};
  msghdr message{};
  message.msg_iov = &bytes;
  message.msg_iovlen = 1;
  message.msg_control = room;
  message.msg_controllen = sizeof room;
  cmsghdr* const head = CMSG_FIRSTHDR(&message);
  head->cmsg_level = SOL_SOCKET;
  head->cmsg_type = SCM_RIGHTS;
  head->cmsg_len = CMSG_LEN(sizeof(int));
  std::memcpy(CMSG_DATA(head), &file, sizeof file);
  return ::sendmsg(to, &message, MSG_DONTWAIT | MSG_NOSIGNAL) == 1;
}

}  // namespace

Result<LookServer> LookServer::beside(const std::string& store_path) {
  const Named at = socket_of(store_path);
  const auto failed = [&](int err) {
    return Status(Code::Failed, fmt::format("{}{}: {}", at.folder, at.file, std::strerror(err)));
  };
  HeldFolder folder;
  if (const int err = HeldFolder::open(at.folder, folder)) return failed(err);
  sockaddr_un address;
  if (!address_of(folder, at.file, address)) return failed(ENAMETOOLONG);
  remove_left_snapshot(store_path);
  remove_left_socket(folder, at.file);
  LookServer server;
  server.socket_ = ::socket(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
  if (server.socket_ < 0) return failed(errno);
  // The mode of the socket's name is that of the socket, less the umask (unix(7)).
  if (::fchmod(server.socket_, 0600) != 0) return failed(errno);
  if (::bind(server.socket_, as_sockaddr(address), sizeof address) != 0) return failed(errno);
  server.path_ = at.folder + (at.folder == "." ? "/" : "") + at.file;
  if (::listen(server.socket_, static_cast<int>(kMostAsking)) != 0) return failed(errno);
  return server;
}

LookServer::~LookServer() {
  forget_journal();
  if (socket_ < 0) return;
  ::close(socket_);
  if (!path_.empty()) ::unlink(path_.c_str());
}

LookServer::LookServer(LookServer&& other) noexcept { *this = std::move(other); }

LookServer& LookServer::operator=(LookServer&& other) noexcept {
  std::swap(path_, other.path_);
  std::swap(socket_, other.socket_);
  std::swap(asking_, other.asking_);
  std::swap(snapshot_, other.snapshot_);
  return *this;
}

void LookServer::hear() {
  while (asking_.size() < kMostAsking) {
    const int connected = ::accept4(socket_, nullptr, nullptr, SOCK_NONBLOCK | SOCK_CLOEXEC);
    if (connected < 0) return;
    if (runs_as(connected, ::geteuid(), 0) && send_bytes(connected, {&kComing, 1}))
      asking_.push_back(connected);
    else
      ::close(connected);
  }
}

// Whoever asked while the copy was made gets it too: it holds all that was entered until its end.
void LookServer::turn(const Journal& journal) {
  if (socket_ < 0) return;
  hear();
  if (asking_.empty()) return;
  if (!snapshot_) {
    auto begun = Snapshot::begin(journal);
    if (!begun.ok()) return answer_all(kNone, begun.status().message());
    snapshot_.emplace(std::move(begun).value());
  }
  const auto done = snapshot_->step();
  if (!done.ok()) return answer_all(kNone, done.status().message());
  if (done.value()) return answer_all(kDone, {});
  std::erase_if(asking_, [](int to) {  // who went away, or does not listen
    if (send_bytes(to, {&kComing, 1})) return false;
    ::close(to);
    return true;
  });
  if (asking_.empty()) snapshot_.reset();
}

void LookServer::answer_all(char word, const std::string& line) {
  for (const int to : asking_) {
    if (word == kDone)
      (void)send_file(to, snapshot_->fd());
    else
      (void)send_bytes(to, word + line.substr(0, kLongestAnswer));
    ::close(to);
  }
  asking_.clear();
  snapshot_.reset();
}

void LookServer::forget_journal() {
  for (const int to : asking_) ::close(to);
  asking_.clear();
  snapshot_.reset();
}

// ---- the side that asks ----

namespace {

// Closed with the object.
struct Fd {
  int fd = -1;
  explicit Fd(int opened) : fd(opened) {}
  Fd(const Fd&) = delete;
  Fd& operator=(const Fd&) = delete;
  ~Fd() {
    if (fd >= 0) ::close(fd);
  }
};

Status nobody(const std::string& store_path) { return status_of(nullptr, store_path, SQLITE_BUSY); }

uid_t owner_of(const std::string& store_path) {
  struct stat s {};
  return ::stat(store_path.c_str(), &s) == 0 ? s.st_uid : ::geteuid();
}

// Whoever listens must be the store's owner, or we: nobody else's program is asked.
int connect_beside(const std::string& store_path) {
  const Named at = socket_of(store_path);
  HeldFolder folder;
  sockaddr_un address;
  if (HeldFolder::open(at.folder, folder) != 0 || !address_of(folder, at.file, address)) return -1;
  const int fd = ::socket(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
  if (fd < 0) return -1;
  if (::connect(fd, as_sockaddr(address), sizeof address) == 0 &&
      runs_as(fd, owner_of(store_path), ::geteuid()))
    return fd;
  ::close(fd);
  return -1;
}

struct Heard {
  char word = 0;  // 0: the other side closed, or said nothing for too long
  int file = -1;
};

Heard hear_one(int from, std::chrono::milliseconds patience) {
  pollfd wanted{from, POLLIN, 0};
  if (::poll(&wanted, 1, static_cast<int>(patience.count())) <= 0) return {};
  Heard heard;
  iovec bytes{&heard.word, 1};
  alignas(cmsghdr) char room[CMSG_SPACE(sizeof(int))]{};
  msghdr message{};
  message.msg_iov = &bytes;
  message.msg_iovlen = 1;
  message.msg_control = room;
  message.msg_controllen = sizeof room;
  if (::recvmsg(from, &message, MSG_CMSG_CLOEXEC) != 1) return {};
  const cmsghdr* const head = CMSG_FIRSTHDR(&message);
  if (head != nullptr && head->cmsg_type == SCM_RIGHTS && head->cmsg_len == CMSG_LEN(sizeof(int)))
    std::memcpy(&heard.file, CMSG_DATA(head), sizeof heard.file);
  return heard;
}

std::string rest_of(int from, std::chrono::milliseconds patience) {
  std::string line;
  for (Heard next = hear_one(from, patience); next.word != 0 && line.size() < kLongestAnswer;
       next = hear_one(from, patience))
    line += next.word;
  return line;
}

Result<std::string> bytes_of(int file, const std::string& store_path) {
  struct stat s {};
  if (::fstat(file, &s) != 0 || !S_ISREG(s.st_mode)) return nobody(store_path);
  std::string bytes(static_cast<std::size_t>(s.st_size), '\0');
  for (std::size_t at = 0; at < bytes.size();) {
    const ssize_t got = ::pread(file, bytes.data() + at, bytes.size() - at, static_cast<off_t>(at));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return nobody(store_path);
    at += static_cast<std::size_t>(got);
  }
  return bytes;
}

}  // namespace

Result<std::string> look_through_open_program(const std::string& store_path,
                                              std::chrono::milliseconds patience) {
  const Fd open(connect_beside(store_path));
  if (open.fd < 0) return nobody(store_path);
  for (;;) {
    const Heard heard = hear_one(open.fd, patience);
    const Fd file(heard.file);
    if (heard.word == kComing) continue;
    if (heard.word == kDone && file.fd >= 0) return bytes_of(file.fd, store_path);
    if (heard.word == kNone) return Status(Code::Failed, rest_of(open.fd, patience));
    return nobody(store_path);
  }
}

}  // namespace storage
