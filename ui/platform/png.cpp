#include "ui/platform/png.h"

#include <stb/stb_image_write.h>

#include "ui/platform/display.h"

namespace ui {

engine::Status write_png(const Picture& p, const std::string& path) {
  const int row_bytes = p.width_px * 4;
  if (stbi_write_png(path.c_str(), p.width_px, p.height_px, 4, p.rgba.data(), row_bytes) != 0)
    return {};
  return {engine::Code::Failed,
          "cannot write the picture " + path + ": check that the folder exists and has room"};
}

}  // namespace ui
