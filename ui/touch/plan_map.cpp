#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "ui/touch/map.h"

namespace ui {

namespace {

constexpr std::array<float, 5> kSwell = {1.8F, 1.6F, 1.4F, 1.2F, 1.0F};  // tiles over the least

struct Frame2 {  // where the given tiles stand
  float x0 = 0, y0 = 0, w = 0, h = 0;
};

struct Needs {
  float w, h, gap;  // px, of the smallest tile
};

using Order = std::vector<std::size_t>;

Frame2 bounds(std::span<const Tile> tiles, const Order& which) {
  Frame2 b{tiles[which[0]].x, tiles[which[0]].y, 0, 0};
  float right = b.x0;
  float bottom = b.y0;
  for (const std::size_t i : which) {
    b.x0 = std::min(b.x0, tiles[i].x);
    b.y0 = std::min(b.y0, tiles[i].y);
    right = std::max(right, tiles[i].x);
    bottom = std::max(bottom, tiles[i].y);
  }
  b.w = right - b.x0;
  b.h = bottom - b.y0;
  return b;
}

float share(float v, float low, float extent) { return extent > 0 ? (v - low) / extent : 0.5F; }

bool apart(const std::vector<Spot>& spots, float gap) {
  for (std::size_t i = 0; i < spots.size(); ++i) {
    for (std::size_t j = i + 1; j < spots.size(); ++j) {
      if (gap_between(spots[i].rect, spots[j].rect) + 0.5F < gap) return false;
    }
  }
  return true;
}

// Tiles of w x h at their scaled places; `same` keeps one scale for both directions.
std::vector<Spot> scaled(const Rect& rect, std::span<const Tile> tiles, const Order& which, float w,
                         float h, bool same) {
  const Frame2 b = bounds(tiles, which);
  const float room_w = rect.w - w;
  const float room_h = rect.h - h;
  if (room_w < 0 || room_h < 0) return {};
  float sx = b.w > 0 ? room_w / b.w : 0;
  float sy = b.h > 0 ? room_h / b.h : 0;
  if (same && sx > 0 && sy > 0) sx = sy = std::min(sx, sy);
  const float left = rect.x + (room_w - sx * b.w) / 2;
  const float top = rect.y + (room_h - sy * b.h) / 2;
  std::vector<Spot> spots;
  for (const std::size_t i : which) {
    spots.push_back({i, {left + (tiles[i].x - b.x0) * sx, top + (tiles[i].y - b.y0) * sy, w, h}});
  }
  return spots;
}

std::optional<MapPage> at_true_places(const Rect& rect, std::span<const Tile> tiles,
                                      const Order& which, const Needs& needs) {
  for (const bool same : {true, false}) {
    for (const float swell : kSwell) {
      auto spots = scaled(rect, tiles, which, needs.w * swell, needs.h * swell, same);
      if (!spots.empty() && apart(spots, needs.gap)) return MapPage{std::move(spots)};
    }
  }
  return std::nullopt;
}

void sort_by(Order& order, std::span<const Tile> tiles, float Tile::*axis) {
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return tiles[a].*axis < tiles[b].*axis; });
}

std::vector<Order> chunks(const Order& order, std::size_t most) {
  std::vector<Order> out;
  const std::size_t n = (order.size() + most - 1) / most;
  for (std::size_t k = 0; k < n; ++k) {
    const auto from = static_cast<std::ptrdiff_t>(order.size() * k / n);
    const auto to = static_cast<std::ptrdiff_t>(order.size() * (k + 1) / n);
    out.emplace_back(order.begin() + from, order.begin() + to);
  }
  return out;
}

// The rows the colonies stand in: a step in y larger than `step` begins another.
std::vector<Order> natural_rows(std::span<const Tile> tiles, Order order, float step) {
  sort_by(order, tiles, &Tile::y);
  std::vector<Order> out;
  for (const std::size_t i : order) {
    if (out.empty() || tiles[i].y - tiles[out.back().back()].y > step) out.emplace_back();
    out.back().push_back(i);
  }
  return out;
}

struct GridRows {
  std::vector<Order> rows;  // from the far side to the near, each left to right
  bool folded = false;      // read like a text: a row goes on in the next line
};

Order one_after_the_other(const std::vector<Order>& rows) {
  Order all;
  for (const Order& row : rows) all.insert(all.end(), row.begin(), row.end());
  return all;
}

// At most `lines` rows of at most `cols` tiles.
GridRows grid_rows(std::span<const Tile> tiles, const Order& which, std::size_t cols,
                   std::size_t lines) {
  const float step = bounds(tiles, which).h / static_cast<float>(lines + 1);
  std::vector<Order> natural = natural_rows(tiles, which, step);
  std::vector<Order> out;
  for (Order& row : natural) {
    // A straight row too long for the screen is folded; a cloud is cut from far to near.
    const bool straight = bounds(tiles, row).h <= step;
    if (straight) sort_by(row, tiles, &Tile::x);
    for (Order& part : chunks(row, cols)) {
      if (!straight) sort_by(part, tiles, &Tile::x);
      out.push_back(std::move(part));
    }
  }
  if (out.size() <= lines) return {std::move(out), false};
  const std::size_t each = std::min(cols, (which.size() + lines - 1) / lines);
  return {chunks(one_after_the_other(natural), each), true};
}

// The columns a row of tiles takes: as near to where they stand as their order allows.
std::vector<std::size_t> columns_of(const Order& row, std::span<const Tile> tiles, const Frame2& b,
                                    std::size_t cols) {
  std::vector<std::size_t> out;
  std::size_t free = 0;
  for (std::size_t k = 0; k < row.size(); ++k) {
    const float place = share(tiles[row[k]].x, b.x0, b.w) * static_cast<float>(cols - 1);
    const std::size_t last = cols - (row.size() - k);
    out.push_back(std::clamp(static_cast<std::size_t>(std::lround(place)), free, last));
    free = out.back() + 1;
  }
  return out;
}

MapPage on_a_grid(const Rect& rect, std::span<const Tile> tiles, const Order& which,
                  const Needs& needs, std::size_t cols_fit, std::size_t lines_fit) {
  const GridRows lines = grid_rows(tiles, which, cols_fit, lines_fit);
  std::size_t cols = 0;
  for (const Order& row : lines.rows) cols = std::max(cols, row.size());
  const auto cells = grid(rect, cols, lines.rows.size(), needs.gap);
  const Frame2 b = bounds(tiles, which);
  MapPage page;
  for (std::size_t line = 0; line < lines.rows.size(); ++line) {
    const Order& row = lines.rows[line];
    const auto places = columns_of(row, tiles, b, cols);
    for (std::size_t k = 0; k < row.size(); ++k) {
      const Rect& cell = cells[line * cols + (lines.folded ? k : places[k])];
      page.spots.push_back({row[k], inset(cell, std::max(0.0F, (cell.w - needs.w * kSwell[0]) / 2),
                                          std::max(0.0F, (cell.h - needs.h * kSwell[0]) / 2))});
    }
  }
  return page;
}

}  // namespace

MapPlan plan_map(const Rect& rect, std::span<const Tile> tiles, float least_w, float least_h,
                 float gap) {
  MapPlan plan;
  if (tiles.empty()) return plan;
  const Needs needs{least_w, least_h, gap};
  Order all(tiles.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  if (auto page = at_true_places(rect, tiles, all, needs)) {
    plan.pages.push_back(std::move(*page));
    plan.true_places = true;
    return plan;
  }
  Rect room = rect;
  const std::size_t cols = std::max<std::size_t>(1, fit_count(room.w, least_w, gap));
  std::size_t lines = std::max<std::size_t>(1, fit_count(room.h, least_h, gap));
  if (tiles.size() > cols * lines) {
    cut_bottom(room, least_h, gap);  // for the pager
    lines = std::max<std::size_t>(1, fit_count(room.h, least_h, gap));
  }
  const Frame2 b = bounds(tiles, all);
  sort_by(all, tiles, b.w > b.h ? &Tile::x : &Tile::y);
  for (const Order& part : chunks(all, cols * lines)) {
    plan.pages.push_back(on_a_grid(room, tiles, part, needs, cols, lines));
  }
  return plan;
}

}  // namespace ui
