// storage/bundle/bag_read.h -- reading files of a bundle past the cache. Internal to storage.
#pragma once
#include <cstdint>
#include <functional>
#include <string>

#include "storage/disk/files.h"
#include "storage/disk/sha256.h"

namespace storage {

using OnBytes = std::function<void(std::uint64_t)>;  // how many more were read

// Calls `take` with each piece of the file, after its cached pages were dropped. `take` says
// whether to go on. 0 or the errno.
[[nodiscard]] int read_pieces(Files& files, const std::string& path,
                              const std::function<bool(std::string_view)>& take);

[[nodiscard]] int hash_file(Files& files, const std::string& path, Hash& hash, std::uint64_t& bytes,
                            const OnBytes& read = {});

// At most `most` bytes; `too_big` when there are more.
[[nodiscard]] int read_text(Files& files, const std::string& path, std::size_t most,
                            std::string& text, bool& too_big);

}  // namespace storage
