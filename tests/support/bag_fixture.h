// tests/support/bag_fixture.h -- folders, bundles and failing file operations for the bag tests.
#pragma once
#include <fcntl.h>
#include <sched.h>
#include <stdlib.h>
#include <sys/mount.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "storage/bundle/bag.h"

namespace bags {

// A folder of the test's own, removed with all in it. In memory where the machine offers that:
// these tests sync a great deal and other work on the disk should not pay for it.
class TempFolder {
 public:
  TempFolder() {
    std::string base = ::access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
    base += "/duskwalk-bag-XXXXXX";
    path_ = ::mkdtemp(base.data());
  }
  ~TempFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

inline std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void spill(const std::string& path, const std::string& text) {
  std::filesystem::create_directories(std::filesystem::path(path).parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

inline std::vector<std::string> names_in(const std::string& folder) {
  storage::DiskFiles files;
  std::vector<std::string> names;
  (void)files.list(folder, names);
  return names;
}

// Invented outfit; a folder below data/, an empty file and one of more than one piece are in it.
inline storage::BagRequest evening(const std::string& parent) {
  storage::BagRequest r;
  r.parent = parent;
  r.medium = storage::Medium::Stick;
  r.device_short = "3f9a1c20";
  r.day = "2026-08-14";
  r.bagging_date = "2026-08-14";
  r.payload = {{"events.jsonl", "{\"seq\":1}\n{\"seq\":2}\n"},
               {"day.csv", "yard,colony\r\nThistle Bank,B3\r\n"},
               {"maps/yards.geojson", std::string(300'000, 'g')},
               {"notes.txt", ""}};
  r.tags = {{"Source-Organization", "Thistle Bank Bees"}};
  return r;
}

// `sha256sum -c --strict` of GNU coreutils on one manifest: the outside judge.
inline bool outside_agrees(const std::string& bag, const std::string& manifest) {
  const std::string command =
      "cd '" + bag + "' && sha256sum -c --strict --quiet " + manifest + " >/dev/null 2>&1";
  return ::system(command.c_str()) == 0;
}

// Real files, with `before(n)` asked before the n-th operation (from 1): an errno makes it fail.
// Descriptors are closed all the same, so that a thousand failures leak none.
class WatchedFiles : public storage::Files {
 public:
  using Before = std::function<int(int)>;
  explicit WatchedFiles(Before before) : before_(std::move(before)) {}
  [[nodiscard]] int count() const { return count_; }

  int hold(const std::string& p) override {
    return run([&] { return disk_.hold(p); });
  }
  int leads_to(const std::string& p, storage::FileInfo& out) override {
    return run([&] { return disk_.leads_to(p, out); });
  }
  int room(const std::string& p, storage::Room& out) override {
    return run([&] { return disk_.room(p, out); });
  }
  int info(const std::string& p, storage::FileInfo& out) override {
    return run([&] { return disk_.info(p, out); });
  }
  int list(const std::string& p, std::vector<std::string>& out) override {
    return run([&] { return disk_.list(p, out); });
  }
  int make_folder(const std::string& p) override {
    return run([&] { return disk_.make_folder(p); });
  }
  int create(const std::string& p, int& fd) override {
    return run([&] { return disk_.create(p, fd); });
  }
  int open(const std::string& p, int& fd) override {
    return run([&] { return disk_.open(p, fd); });
  }
  int write(int fd, std::string_view b) override {
    return run([&] { return disk_.write(fd, b); });
  }
  int read(int fd, char* to, std::size_t most, std::size_t& got) override {
    return run([&] { return disk_.read(fd, to, most, got); });
  }
  int sync(int fd) override {
    return run([&] { return disk_.sync(fd); });
  }
  int drop_cache(int fd) override {
    return run([&] { return disk_.drop_cache(fd); });
  }
  int close(int fd) override {
    const int err = disk_.close(fd);
    return run([&] { return err; });
  }
  int sync_folder(const std::string& p) override {
    return run([&] { return disk_.sync_folder(p); });
  }
  int sync_medium(const std::string& p) override {
    return run([&] { return disk_.sync_medium(p); });
  }
  int rename(const std::string& from, const std::string& to) override {
    return run([&] { return disk_.rename(from, to); });
  }
  int remove_file(const std::string& p) override {
    return run([&] { return disk_.remove_file(p); });
  }
  int remove_folder(const std::string& p) override {
    return run([&] { return disk_.remove_folder(p); });
  }

 protected:
  storage::DiskFiles disk_;

 private:
  template <class Call>
  int run(Call call) {
    const int err = before_(++count_);
    return err != 0 ? err : call();
  }
  Before before_;
  int count_ = 0;
};

// Mounts made from here on are this process's own and end with it. False where that is forbidden
// (not root, a locked-down container): the test says so and leaves.
inline bool may_mount() {
  static const bool may = ::unshare(CLONE_NEWNS) == 0 &&
                          ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0;
  return may;
}

// A small real medium in memory, mounted as long as this lives.
class SmallMedium {
 public:
  explicit SmallMedium(const std::string& options = "size=512k")
      : mounted_(may_mount() &&
                 ::mount("none", folder_.path().c_str(), "tmpfs", 0, options.c_str()) == 0) {}
  ~SmallMedium() { pull(); }
  SmallMedium(const SmallMedium&) = delete;
  SmallMedium& operator=(const SmallMedium&) = delete;

  [[nodiscard]] bool mounted() const { return mounted_; }
  [[nodiscard]] const std::string& path() const { return folder_.path(); }
  void pull() {
    if (mounted_) ::umount2(path().c_str(), MNT_DETACH);
    mounted_ = false;
  }
  bool make_read_only() {
    return ::mount("none", path().c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, nullptr) == 0;
  }

 private:
  TempFolder folder_;
  bool mounted_;
};

}  // namespace bags
