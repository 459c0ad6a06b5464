// storage/disk/media_errors.h -- what went wrong with a stick or folder, in one line for the
// keeper.
#pragma once
#include <cstdint>
#include <string>

#include "engine/core/status.h"

namespace storage {

// Where a bundle goes: a stick that is pulled afterwards, or a folder chosen by hand.
enum class Medium { Stick, Folder };

enum class Doing { Writing, Reading };

// "stick" or "folder".
[[nodiscard]] const char* name(Medium medium);

// The Status for a failed file operation (`err` is its errno) on `path`:
// Full (ENOSPC, EDQUOT), ReadOnly (EROFS, EACCES, EPERM), Gone (EIO, ENODEV, ENXIO, ENOENT and the
// like), BadInput (a name the medium refuses), else Failed.
[[nodiscard]] engine::Status trouble(Medium medium, Doing doing, int err, const std::string& path);

// Full, with the numbers. When there seems to be room the medium takes no more files (the root
// folder of a FAT16 stick holds few), and the line says that instead.
[[nodiscard]] engine::Status no_room(Medium medium, std::uint64_t needed, std::uint64_t free);

// "12 MB", below 10 MB with one decimal; 1 MB = 1000000 bytes as printed on sticks. `up` rounds up.
[[nodiscard]] std::string megabytes(std::uint64_t bytes, bool up);

}  // namespace storage
