#include "ui/touch/touch.h"

#include <imgui.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "ui/touch/paint.h"

namespace ui {

void Touch::begin(const Frame& frame) {
  assert(frame.theme != nullptr && frame.fonts.small != nullptr);
  const ImGuiIO& io = ImGui::GetIO();
  const TouchTime at(frame.earliest_ms.value_or(frame.now_ms), frame.now_ms);
  press_.step({io.MouseDown[0], io.MousePos.x, io.MousePos.y}, at, targets_);
  frame_ = frame;
  draw_ = ImGui::GetBackgroundDrawList();
  // Rings and strokes from the line texture come out ragged in SDL's software renderer.
  draw_->Flags &= ~ImDrawListFlags_AntiAliasedLinesUseTex;
  targets_.clear();
  texts_.clear();
  fills_.clear();
  wake_.reset();
  if (press_.holding()) wake_in(kHoldFrameMs);
  fill(screen(), Surface::Page);
}

Hit Touch::target(std::string_view label, const Rect& rect, bool enabled, bool hold,
                  std::string_view id) {
  const std::string key(id.empty() ? label : id);
  targets_.push_back({std::string(label), key, rect, enabled, hold});
  if (!enabled) return {};
  return {press_.tapped(key, rect), press_.pressing(key, rect), press_.held(key, rect)};
}

void Touch::fill(const Rect& rect, Surface surface, float edge, bool round) {
  const Skin& skin = theme()[surface];
  const float rim = std::round(edge);
  const float corner = rim > 0 || round ? mm(kCorner) : 0;
  if (rim > 0) paint_rect(draw_, rect, skin.edge, corner);
  paint_rect(draw_, inset(rect, rim), skin.ground, std::max(0.0F, corner - rim));
  fills_.push_back({rect, surface});
}

Surface Touch::surface_at(const Rect& rect) const {
  const auto under = std::find_if(fills_.rbegin(), fills_.rend(), [&](const Fill& f) {
    return f.rect.contains(rect.mid_x(), rect.mid_y());
  });
  return under == fills_.rend() ? Surface::Page : under->surface;
}

void Touch::record(ShownText text) {
  text.ground = theme()[Surface::Page].ground;
  double worst = 22;  // above the 21 of black on white
  for (auto f = fills_.rbegin(); f != fills_.rend(); ++f) {
    if (!overlap(f->rect, text.rect)) continue;
    const Colour ground = theme()[f->surface].ground;
    const double ratio = contrast_ratio(text.ink, ground);
    if (ratio < worst) {
      worst = ratio;
      text.ground = ground;
    }
    if (holds(f->rect, text.rect)) break;
  }
  texts_.push_back(std::move(text));
}

void Touch::cover() {
  targets_.clear();
  texts_.clear();
  fill(screen(), Surface::Page);
}

void Touch::wake_in(std::int64_t ms) { wake_ = std::min(wake_.value_or(ms), ms); }

}  // namespace ui
