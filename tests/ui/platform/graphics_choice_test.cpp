// SPDX-License-Identifier: MIT
#include "ui/platform/graphics_choice.h"

#include <doctest/doctest.h>

namespace graphics_choice_test {

namespace {

struct Named {
  std::string name;
  bool software;
};

struct Machine {
  std::string name;
  std::vector<std::string> devices;
  bool chip;
};

}  // namespace

// llvmpipe as Mesa 22.3 of Debian 12 says it, read on such a machine; the chips' names from memory.
TEST_CASE("what OpenGL says of itself tells whether a processor draws") {
  const Named all[] = {
      {"llvmpipe (LLVM 15.0.6, 256 bits)", true},
      {"softpipe", true},
      {"Software Rasterizer", true},
      {"Mali-G52 (Panfrost)", false},
      {"Mesa Intel(R) UHD Graphics 600 (GLK 2)", false},
      {"VC4 V3D 2.1", false},
      {"FD618", false},
      {"virgl", false},
      {"", false},
  };
  for (const Named& one : all) {
    CAPTURE(one.name);
    CHECK(ui::is_software_gl(one.name) == one.software);
  }
}

// Linux, Documentation/gpu/drm-uapi.rst, "Render nodes": their names are renderD and a number from
// 128.
TEST_CASE("a machine without a node that draws has no graphics chip") {
  const Machine all[] = {
      {"none at all", {"null", "tty1", "snd"}, false},
      {"only a screen", {"by-path", "card0", "null"}, false},
      {"a chip", {"by-path", "card0", "renderD128", "null"}, true},
      {"another maker's driver", {"nvidia0", "nvidiactl", "null"}, true},
      {"its control node alone", {"nvidiactl", "null"}, false},
  };
  for (const Machine& one : all) {
    CAPTURE(one.name);
    CHECK(ui::may_have_graphics_chip(one.devices) == one.chip);
  }
}

TEST_CASE("only a window system shows a picture in memory without OpenGL") {
  CHECK(ui::shows_pictures_without_gl("x11"));
  CHECK(ui::shows_pictures_without_gl("wayland"));
  CHECK_FALSE(ui::shows_pictures_without_gl("KMSDRM"));
}

}  // namespace graphics_choice_test
