// storage/disk/flush.h -- makes a file, or the names in a folder, outlive a power cut. Inside
// storage/ only.
#pragma once
#include <string>

#include "engine/core/status.h"

namespace storage {

// `path`: a file, or a folder whose names changed.
[[nodiscard]] engine::Status flush_path(const std::string& path);

}  // namespace storage
