// SPDX-License-Identifier: MIT
// ui/platform/graphics_choice.h -- whether OpenGL is worth having on this machine.
//
// Where no graphics chip does the work, Mesa draws OpenGL with the processor: each tick of a
// countdown then costs a whole screen, and its compiler takes memory. SDL's own software renderer
// draws only what changed. It can show its picture by itself on X11 and Wayland; on KMSDRM SDL 2.26
// shows even that through OpenGL, so that nothing would be won there.
#pragma once
#include <string>
#include <vector>

namespace ui {

// Names in /dev/dri and /dev: "renderD128", "card0", "nvidia0". Without a node that draws, OpenGL
// need not even be loaded to know that it is software.
[[nodiscard]] bool may_have_graphics_chip(const std::vector<std::string>& device_names);

// The names on this machine.
[[nodiscard]] std::vector<std::string> graphics_device_names();

// What OpenGL says of itself (GL_RENDERER): Mesa's drawers by processor have these names since they
// exist: "llvmpipe (LLVM 15.0.6, 256 bits)", "softpipe", "Software Rasterizer".
[[nodiscard]] bool is_software_gl(const std::string& gl_renderer);

// Whether this video driver ("x11", "wayland", "KMSDRM") shows a picture in memory without OpenGL.
[[nodiscard]] bool shows_pictures_without_gl(const std::string& video_driver);

}  // namespace ui
