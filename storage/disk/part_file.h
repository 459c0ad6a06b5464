// storage/disk/part_file.h -- an unfinished file beside the name that it is to get.
//
//   NAME.part-4711        4711: the process that writes it
//
// NAME appears at once and whole, or not at all. Whoever gives up removes the part. What a killed
// program left is removed by the next writer of NAME: each writer keeps a lock (flock) on its part,
// and a part of ours that nobody locks was left. So are the files that SQLite put beside it.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

class PartFile {
 public:
  enum class Readers { Owner, Everybody };  // Owner: mode 0600; Everybody: as the umask says
  enum class Over { Nothing, WhatIsThere };

  [[nodiscard]] static engine::Result<PartFile> make(const std::string& name, Readers readers);
  ~PartFile();  // removed unless it has its name
  PartFile(PartFile&& other) noexcept;
  PartFile& operator=(PartFile&&) = delete;

  [[nodiscard]] const std::string& path() const { return path_; }
  // Fails with the line for `name`: full, read-only, gone.
  [[nodiscard]] engine::Status write(std::string_view bytes);
  // Flushed, renamed, the folder flushed. BadInput: Over::Nothing, and a file of that name is
  // there. When only the last step fails the file has its name but may not outlive a power cut.
  [[nodiscard]] engine::Status finish(Over over);

 private:
  PartFile(std::string name, std::string path, int fd);
  void remove();
  [[nodiscard]] engine::Status failed(int err) const;

  std::string name_, path_;
  int fd_ = -1;
};

}  // namespace storage
