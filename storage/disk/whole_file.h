// storage/disk/whole_file.h -- a file that is either there whole, or as it was.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

// Writes beside it, flushes, renames over it, flushes the folder. On failure what was there stays;
// only when the last step fails the new content is there, but may not outlive a power cut.
engine::Status write_whole_file(const std::string& path, std::string_view bytes);

// All of a file, at most `most` bytes; larger ones are BadInput.
[[nodiscard]] engine::Result<std::string> read_whole_file(const std::string& path,
                                                          std::size_t most);

}  // namespace storage
