// The band of a series, cut into strokes that hold their place on the screen.
//
// How much is drawn follows the size of the chart, not the length of the period: points nearer
// than a pixel to each other are one, and a level stroke runs on from day to day as one rectangle.
#include <algorithm>
#include <cmath>

#include "ui/touch/paint.h"
#include "ui/touch/plot_parts.h"

namespace ui {

namespace {

// In px; top <= bottom.
struct Slice {
  float x = 0, top = 0, bottom = 0;
};

std::vector<Slice> slices(const PlotPen& p, std::span<const BandPoint> band) {
  std::vector<Slice> out;
  for (std::size_t i = 0; i < band.size(); ++i) {
    const float x = p.x(band[i].x);
    if (!out.empty() && x - out.back().x < 1 && i + 1 < band.size()) continue;
    const float a = p.y(band[i].high), b = p.y(band[i].low);
    out.push_back({x, std::min(a, b), std::max(a, b)});
  }
  return out;
}

struct Part {
  float from = 0, to = 1;  // of the way from one slice to the next; from > to: nothing
};

// Leaves of `part` what is not below zero, for a value that goes evenly from `a` to `b`.
void keep_positive(float a, float b, Part& part) {
  if (a >= 0 && b >= 0) return;
  if (a < 0 && b < 0) return void(part = {1, 0});
  const float zero = a / (a - b);
  if (a < 0)
    part.from = std::max(part.from, zero);
  else
    part.to = std::min(part.to, zero);
}

// The strokes at the height `at`: as long as the band lies there without a break.
void level_strokes(Touch& t, std::span<const Slice> band, float at, float thin, Colour ink) {
  float from = 0, to = -1;  // the stroke at hand; none while it ends before it begins
  const auto finish = [&] {
    if (to > from) paint_rect(t.draw(), {from, at, std::max(1.0F, to - from), thin}, ink);
    to = from - 1;
  };
  for (std::size_t i = 1; i < band.size(); ++i) {
    const Slice &a = band[i - 1], &b = band[i];
    Part part;
    keep_positive(at - a.top, at - b.top, part);
    keep_positive(a.bottom - at, b.bottom - at, part);
    if (part.from > part.to) {
      finish();
      continue;
    }
    const float begins = a.x + (b.x - a.x) * part.from;
    if (to < from || begins > to + 0.5F) finish(), from = begins;
    to = a.x + (b.x - a.x) * part.to;
  }
  finish();
}

void upright_strokes(Touch& t, std::span<const Slice> band, float step, float left, float thin,
                     Colour ink) {
  for (std::size_t i = 1; i < band.size(); ++i) {
    const Slice &a = band[i - 1], &b = band[i];
    for (float at = left + std::ceil((a.x - left) / step) * step; at < b.x; at += step) {
      const float part = (at - a.x) / (b.x - a.x);
      const float top = a.top + (b.top - a.top) * part;
      const float bottom = a.bottom + (b.bottom - a.bottom) * part;
      paint_rect(t.draw(), {at, top, thin, bottom - top}, ink);
    }
  }
}

}  // namespace

void fill_band(const PlotPen& p, std::span<const BandPoint> band, Pattern pattern, Colour ink) {
  const float step = p.t.mm(1.6F), thin = std::max(1.0F, p.t.mm(0.25F));
  const std::vector<Slice> cut = slices(p, band);
  if (pattern == Pattern::Upright) return upright_strokes(p.t, cut, step, p.in.x, thin, ink);
  for (float at = p.in.y; pattern == Pattern::Level && at < p.in.bottom(); at += step)
    level_strokes(p.t, cut, at, thin, ink);
}

}  // namespace ui
