#include "ui/platform/renderer.h"

#include <SDL.h>
#include <imgui.h>

#include <type_traits>

#include "ui/platform/dirty_area.h"

namespace ui {
namespace {

static_assert(std::is_same_v<ImDrawIdx, std::uint16_t>, "the index buffers are handed on as bytes");

SDL_Rect rect_of(const Box& b) { return {b.x0, b.y0, b.x1 - b.x0, b.y1 - b.y0}; }

Uint8 channel(std::uint32_t colour, int shift) { return static_cast<Uint8>(colour >> shift); }

// SDL_RenderClear would ignore the clip, so the ground is painted as a rectangle.
void paint_ground(SDL_Renderer& target, const Box& within, std::uint32_t colour) {
  const SDL_Rect rect = rect_of(within);
  SDL_RenderSetClipRect(&target, nullptr);
  SDL_SetRenderDrawBlendMode(&target, SDL_BLENDMODE_NONE);
  SDL_SetRenderDrawColor(&target, channel(colour, IM_COL32_R_SHIFT),
                         channel(colour, IM_COL32_G_SHIFT), channel(colour, IM_COL32_B_SHIFT), 255);
  SDL_RenderFillRect(&target, &rect);
}

}  // namespace

void Renderer::draw(const ImDrawData& frame, const Box& within, std::uint32_t background) {
  if (empty(within)) return;
  paint_ground(target_, within, background);
  for (int n = 0; n < frame.CmdListsCount; ++n)
    for (const ImDrawCmd& c : frame.CmdLists[n]->CmdBuffer) {
      const Box clip = clip_of(c, within);
      if (c.UserCallback == nullptr && !empty(clip)) draw(*frame.CmdLists[n], c, clip);
    }
  SDL_RenderSetClipRect(&target_, nullptr);
}

void Renderer::draw(const ImDrawList& list, const ImDrawCmd& c, const Box& clip) {
  const ImDrawVert* vertices = list.VtxBuffer.Data + c.VtxOffset;
  const ImDrawIdx* index = list.IdxBuffer.Data + c.IdxOffset;
  indices_.clear();
  for (unsigned i = 0; i + 2 < c.ElemCount; i += 3, index += 3)
    if (!empty(
            overlap(bounds_of(vertices[index[0]], vertices[index[1]], vertices[index[2]]), clip)))
      indices_.insert(indices_.end(), index, index + 3);
  if (indices_.empty()) return;
  const SDL_Rect rect = rect_of(clip);
  SDL_RenderSetClipRect(&target_, &rect);
  // ImGui packs colours as the bytes R, G, B, A, which is the layout of SDL_Color.
  const auto* colours = reinterpret_cast<const SDL_Color*>(&vertices->col);
  SDL_RenderGeometryRaw(&target_, static_cast<SDL_Texture*>(c.TextureId), &vertices->pos.x,
                        sizeof(ImDrawVert), colours, sizeof(ImDrawVert), &vertices->uv.x,
                        sizeof(ImDrawVert), list.VtxBuffer.Size - static_cast<int>(c.VtxOffset),
                        indices_.data(), static_cast<int>(indices_.size()), sizeof(ImDrawIdx));
}

}  // namespace ui
