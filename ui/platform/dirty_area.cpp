#include "ui/platform/dirty_area.h"

#include <imgui.h>

#include <algorithm>
#include <limits>

#include "ui/platform/hash.h"

namespace ui {
namespace {

// How far ahead the two frames are searched for the place where they agree again, in triangles:
// enough for a line of text (two triangles a glyph) that was put in, taken out or replaced.
constexpr std::size_t kLookAhead = 128;

int whole(float v) {  // a float that may be far outside the screen, as an int without overflow
  return static_cast<int>(std::clamp(v, -1.0e6f, 1.0e6f));
}

// The pixels a triangle may write, before clipping. Cutting a fraction off goes towards zero, so
// two pixels on the low side are one of margin at least.
Box bounds_of(const ImVec2& a, const ImVec2& b, const ImVec2& c) {
  return {whole(std::min({a.x, b.x, c.x})) - 2, whole(std::min({a.y, b.y, c.y})) - 2,
          whole(std::max({a.x, b.x, c.x})) + 2, whole(std::max({a.y, b.y, c.y})) + 2};
}

std::uint64_t hash_of_command(const ImDrawCmd& c, std::uint64_t seed) {
  const std::uint64_t texture = reinterpret_cast<std::uintptr_t>(c.TextureId);
  return hash_bytes(mix(seed, texture), &c.ClipRect, sizeof c.ClipRect);
}

std::size_t bytes_of(int count, std::size_t each) { return static_cast<std::size_t>(count) * each; }

// Adds the patches of one command of one list.
class Flattener {
 public:
  Flattener(const Box& screen, std::vector<Patch>& out) : screen_(screen), out_(out) {}

  void add(const ImDrawList& list) {
    vertex_hashes_.clear();
    for (const ImDrawVert& v : list.VtxBuffer)
      vertex_hashes_.push_back(hash_bytes(0, &v, sizeof v));
    for (const ImDrawCmd& c : list.CmdBuffer)
      if (c.UserCallback == nullptr && c.ElemCount > 0) add(list, c);
  }

 private:
  void add(const ImDrawList& list, const ImDrawCmd& c) {
    const Box clip = clip_of(c, screen_);
    const std::uint64_t seed = hash_of_command(c, 1);
    const ImDrawIdx* index = list.IdxBuffer.Data + c.IdxOffset;
    std::uint64_t previous = index[0];
    for (unsigned i = 0; i + 2 < c.ElemCount; i += 3, index += 3) {
      const std::uint64_t a = c.VtxOffset + index[0], b = c.VtxOffset + index[1],
                          d = c.VtxOffset + index[2];
      const auto at = [&](std::uint64_t k) -> const ImDrawVert& { return list.VtxBuffer.Data[k]; };
      const Box where = overlap(bounds_of(at(a).pos, at(b).pos, at(d).pos), clip);
      // SDL's software path draws two triangles that share corners as one rectangle, so which
      // corners are shared, also with the triangle before, belongs to the look.
      const std::uint64_t shared = (b - a) << 40 ^ (d - a) << 20 ^ (index[0] - previous);
      previous = index[0];
      if (empty(where)) continue;
      const auto hash = [&](std::uint64_t k) { return vertex_hashes_[k]; };
      out_.push_back({mix(mix(mix(mix(seed, shared), hash(a)), hash(b)), hash(d)), where});
    }
  }

  const Box& screen_;
  std::vector<Patch>& out_;
  std::vector<std::uint64_t> vertex_hashes_;
};

// Two boxes are drawn as one when that paints at most so many pixels more: the letters of one word.
constexpr std::int64_t kCheapJoin = 2000;

// Collects boxes, never more than kMostBoxes, by joining those whose union wastes the least.
class Collector {
 public:
  explicit Collector(const Box& screen) : most_(area(screen) * 2 / 3) {}

  void add(const Box& b) {
    for (Box& have : boxes_) {
      if (waste(have, b) > kCheapJoin) continue;
      have = around(have, b);
      return;
    }
    boxes_.push_back(b);
    if (boxes_.size() > kMostBoxes) join_cheapest();
  }

  [[nodiscard]] bool too_much() const {
    std::int64_t sum = 0;
    for (const Box& b : boxes_) sum += area(b);
    return sum > most_;
  }

  std::vector<Box> finish() {
    while (any_overlap()) join_cheapest();
    return std::move(boxes_);
  }

 private:
  // Pixels that only the union has; far below zero when the boxes overlap, which must not stay.
  static std::int64_t waste(const Box& a, const Box& b) {
    return area(around(a, b)) - area(a) - area(b) + 2 * area(overlap(a, b)) -
           (empty(overlap(a, b)) ? 0 : std::numeric_limits<std::int32_t>::max());
  }

  void join_cheapest() {
    std::size_t from = 1, into = 0;
    for (std::size_t i = 0; i < boxes_.size(); ++i)
      for (std::size_t k = i + 1; k < boxes_.size(); ++k)
        if (waste(boxes_[i], boxes_[k]) < waste(boxes_[into], boxes_[from])) into = i, from = k;
    boxes_[into] = around(boxes_[into], boxes_[from]);
    boxes_.erase(boxes_.begin() + static_cast<std::ptrdiff_t>(from));
  }

  [[nodiscard]] bool any_overlap() const {
    for (std::size_t i = 0; i < boxes_.size(); ++i)
      for (std::size_t k = i + 1; k < boxes_.size(); ++k)
        if (!empty(overlap(boxes_[i], boxes_[k]))) return true;
    return false;
  }

  std::int64_t most_;
  std::vector<Box> boxes_;
};

struct Skip {
  std::size_t before = 1, after = 1;
};

// The nearest place after (i, k) where both frames have the same triangle: replaced, put in or
// taken out, in this order. {1, 1} when there is none near.
Skip next_match(const std::vector<Patch>& before, std::size_t i, const std::vector<Patch>& after,
                std::size_t k) {
  const auto same = [&](std::size_t a, std::size_t b) {
    return i + a < before.size() && k + b < after.size() && before[i + a].look == after[k + b].look;
  };
  for (std::size_t n = 1; n <= kLookAhead; ++n) {
    if (same(n, n)) return {n, n};
    if (same(0, n)) return {0, n};
    if (same(n, 0)) return {n, 0};
  }
  return {};
}

}  // namespace

std::uint64_t hash_of(const ImDrawData& frame) {
  std::uint64_t h = hash_bytes(0, &frame.DisplaySize, sizeof frame.DisplaySize);
  for (int n = 0; n < frame.CmdListsCount; ++n) {
    const ImDrawList& list = *frame.CmdLists[n];
    h = hash_bytes(h, list.VtxBuffer.Data, bytes_of(list.VtxBuffer.Size, sizeof(ImDrawVert)));
    h = hash_bytes(h, list.IdxBuffer.Data, bytes_of(list.IdxBuffer.Size, sizeof(ImDrawIdx)));
    for (const ImDrawCmd& c : list.CmdBuffer)
      h = mix(mix(hash_of_command(c, h), c.ElemCount), c.VtxOffset);
  }
  return h;
}

Box clip_of(const ImDrawCmd& c, const Box& screen) {
  const ImVec4 r = c.ClipRect;
  return overlap({whole(r.x), whole(r.y), whole(r.z), whole(r.w)}, screen);
}

void flatten(const ImDrawData& frame, const Box& screen, std::vector<Patch>& patches) {
  patches.clear();
  Flattener flattener(screen, patches);
  for (int n = 0; n < frame.CmdListsCount; ++n) flattener.add(*frame.CmdLists[n]);
}

std::vector<Box> changed(const std::vector<Patch>& before, const std::vector<Patch>& after,
                         const Box& screen) {
  Collector boxes(screen);
  std::size_t i = 0, k = 0;
  while (i < before.size() || k < after.size()) {
    if (i < before.size() && k < after.size() && before[i].look == after[k].look) {
      ++i, ++k;
      continue;
    }
    const Skip skip = next_match(before, i, after, k);
    for (std::size_t n = 0; n < skip.before && i < before.size(); ++n) boxes.add(before[i++].where);
    for (std::size_t n = 0; n < skip.after && k < after.size(); ++n) boxes.add(after[k++].where);
    if (boxes.too_much()) return {screen};
  }
  return boxes.finish();
}

}  // namespace ui
