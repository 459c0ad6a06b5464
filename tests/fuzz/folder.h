// tests/fuzz/folder.h -- a folder of files held in memory, as one text that can be fuzzed.
//
// A line "@@ PATH" begins a file; what stands between it and the next such line, without the last
// line end, is the file. Also a folder on disk for the targets that need one.
#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "storage/disk/files.h"

namespace fuzz {

using FolderFiles = std::map<std::string, std::string>;  // path to bytes

[[nodiscard]] FolderFiles files_in(std::string_view text);

// Read-only; the folder is "/in". Folders are there because files lie in them.
class HeldFiles : public storage::Files {
 public:
  explicit HeldFiles(const FolderFiles& files);

  int hold(const std::string&) override { return 0; }  // nobody else is there
  int leads_to(const std::string& path, storage::FileInfo& out) override { return info(path, out); }
  int room(const std::string&, storage::Room&) override;
  int info(const std::string& path, storage::FileInfo& out) override;
  int list(const std::string& path, std::vector<std::string>& out) override;
  int open(const std::string& path, int& fd) override;
  int read(int fd, char* to, std::size_t most, std::size_t& got) override;
  int close(int fd) override;
  int drop_cache(int) override { return 0; }

  int make_folder(const std::string&) override;
  int create(const std::string&, int&) override;
  int write(int, std::string_view) override;
  int sync(int) override;
  int sync_folder(const std::string&) override;
  int sync_medium(const std::string&) override;
  int rename(const std::string&, const std::string&) override;
  int remove_file(const std::string&) override;
  int remove_folder(const std::string&) override;

 private:
  struct Opened {
    std::string_view left;
  };
  FolderFiles files_;  // by whole path, "/in/data/events.jsonl"
  std::map<int, Opened> open_;
  int next_ = 3;
};

// A folder of this process alone, in memory where the machine has that; gone at its end.
[[nodiscard]] const std::string& scratch();

}  // namespace fuzz
