// ui/platform/png.h -- a picture as a PNG file.
#pragma once
#include <string>

#include "engine/core/status.h"

namespace ui {

struct Picture;

// Writes `picture` to `path`, replacing what is there. The same pixels give the same bytes.
[[nodiscard]] engine::Status write_png(const Picture& picture, const std::string& path);

}  // namespace ui
