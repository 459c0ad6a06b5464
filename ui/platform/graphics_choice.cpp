// SPDX-License-Identifier: MIT
#include "ui/platform/graphics_choice.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <system_error>

namespace ui {

bool may_have_graphics_chip(const std::vector<std::string>& device_names) {
  return std::any_of(device_names.begin(), device_names.end(), [](const std::string& name) {
    return name.starts_with("renderD") || (name.starts_with("nvidia") && name != "nvidiactl");
  });
}

std::vector<std::string> graphics_device_names() {
  std::vector<std::string> names;
  for (const char* folder : {"/dev/dri", "/dev"}) {
    std::error_code error;
    for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end;
         at.increment(error))
      names.push_back(at->path().filename().string());
  }
  return names;
}

bool is_software_gl(const std::string& gl_renderer) {
  const char* const names[] = {"llvmpipe", "softpipe", "swrast", "Software Rasterizer"};
  return std::any_of(std::begin(names), std::end(names),
                     [&](const char* name) { return gl_renderer.find(name) != std::string::npos; });
}

bool shows_pictures_without_gl(const std::string& video_driver) {
  return video_driver == "x11" || video_driver == "wayland";
}

}  // namespace ui
