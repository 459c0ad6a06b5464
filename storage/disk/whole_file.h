// storage/disk/whole_file.h -- a file that is either there whole, or as it was.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"
#include "storage/disk/part_file.h"

namespace storage {

// Writes beside it, flushes, renames over it, flushes the folder (storage/disk/part_file.h). On
// failure what was there stays; only when the last step fails the new content is there, but may not
// outlive a power cut. A link at `path` is replaced, not followed.
engine::Status write_whole_file(const std::string& path, std::string_view bytes,
                                PartFile::Readers readers = PartFile::Readers::Everybody);

// All of the file `from` (a link is followed) into a part, and into a new file that is for its
// owner only; BadInput: `to` is there.
[[nodiscard]] engine::Status copy_into(PartFile& part, const std::string& from);
[[nodiscard]] engine::Status copy_whole_file(const std::string& from, const std::string& to);

// All of a file, at most `most` bytes; larger ones are BadInput.
[[nodiscard]] engine::Result<std::string> read_whole_file(const std::string& path,
                                                          std::size_t most);
// The same of a file that this program keeps for itself: NotFound where a link, a pipe or anything
// else but a plain file lies.
[[nodiscard]] engine::Result<std::string> read_own_file(const std::string& path, std::size_t most);

}  // namespace storage
