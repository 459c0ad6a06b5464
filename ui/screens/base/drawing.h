// ui/screens/base/drawing.h -- hives and what happens to them, as drawings.
//
// Every state has its own shape, and a colour besides: a ring that empties (time), wisps (vapor), a
// flap with the cloth's number (covered), a tick (done), a stroke (skipped), a bent arrow (come
// back). Sizes follow from the rectangle; letters have the size of a role.
#pragma once
#include <string>
#include <string_view>

#include "engine/walk/walk.h"
#include "ui/touch/icons.h"
#include "ui/touch/ink_pen.h"
#include "ui/touch/touch.h"

namespace ui {

enum class HiveState { ToDo, Next, Vapor, Covered, Done, ComeBack, Skipped };

struct HiveDrawing {
  int boxes = 1, supers = 0;
  HiveState state = HiveState::ToDo;
  float left = 1;       // of the time that runs, 1 to 0; then the ring is closed again and thick
  bool due = false;     // the time is over
  bool rests = false;   // vapor that stopped: there are no wisps
  std::string cloth{};  // on the flap: "3"
};

// How far the walk is at one of its hives, whatever comes next.
[[nodiscard]] HiveState hive_state(const engine::Walk& walk, const engine::Stop& stop);

// The surface whose colours the state has.
[[nodiscard]] Surface surface_of(HiveState state);

// The hive in the middle of `rect` with its state on it; a ring round it where time runs.
void draw_hive(Touch& t, const Rect& rect, const HiveDrawing& hive);

// The hive alone, standing on the lower edge of `rect`: brood boxes, supers (thinner), lid,
// entrance. Returns the rectangle it takes.
Rect draw_boxes(const InkPen& pen, const Rect& rect, int boxes, int supers,
                const Colour* inside = nullptr);

// A ring of which `left` (1 to 0) is still there, emptying clockwise from the top.
void draw_ring(Touch& t, float x, float y, float radius, float left, Colour on, Colour off,
               float width);
// The cloth before an entrance: a filled shape with its number.
void draw_flap(Touch& t, const Rect& rect, std::string_view number, Surface surface);
void draw_wisps(const InkPen& pen, const Rect& rect);
void draw_tick(const InkPen& pen, const Rect& rect);
void draw_skip(const InkPen& pen, const Rect& rect);
// The arrow flies with the wind; `from_deg` is where it comes from, 0 north (up), clockwise.
void draw_wind(const InkPen& pen, const Rect& rect, int from_deg);
// A dotted line between two places; `keep` px free at either end.
void draw_way(const InkPen& pen, float x0, float y0, float x1, float y1, float keep);
// The same between two rectangles, which stay free.
void draw_way(const InkPen& pen, const Rect& from, const Rect& to);

}  // namespace ui
