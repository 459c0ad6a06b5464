// ui/platform/renderer.h -- ImGui's triangles through SDL_RenderGeometry.
//
// Draws nothing by itself: ui/platform/display.h decides when and how much. Works alike on GLES2,
// OpenGL and SDL's software renderer. Draw callbacks in the lists are ignored; nothing uses them.
#pragma once
#include <cstdint>
#include <vector>

#include "ui/platform/box.h"

struct ImDrawCmd;
struct ImDrawData;
struct ImDrawList;
struct ImDrawVert;
struct SDL_Renderer;
struct SDL_Texture;

namespace ui {

class Renderer {
 public:
  // `target` must outlive this.
  explicit Renderer(SDL_Renderer& target);

  // Fills `within` with `background` (packed as IM_COL32) and draws what of `frame` lies in it.
  // Pixels outside `within` are not touched.
  void draw(const ImDrawData& frame, const Box& within, std::uint32_t background);

 private:
  void draw(const ImDrawList& list, const ImDrawCmd& command, const Box& clip);
  void flush(const ImDrawVert* vertices, SDL_Texture* texture);

  SDL_Renderer& target_;
  bool split_plain_;
  std::vector<std::uint16_t> indices_;  // those of the run at hand that reach the clip
};

}  // namespace ui
