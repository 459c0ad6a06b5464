// ui/platform/dirty_area.h -- which pixels differ between two frames, seen from their triangles.
//
// Pure: knows ImGui's draw lists and no window. A frame is flattened to one Patch per triangle, in
// the order of drawing. Two frames are aligned to a common subsequence of patches; the pixels
// outside the boxes of all other patches saw the same triangles in the same order, so they are
// equal, and redrawing the boxes gives the whole new frame (tests/ui/platform/display_test.cpp
// holds the renderer to it, pixel for pixel).
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "ui/platform/box.h"

struct ImDrawCmd;
struct ImDrawData;

namespace ui {

struct Patch {
  std::uint64_t look = 0;  // hash of corners, colours, texture, clip and sharing of corners
  Box where;  // the pixels it may touch, clip already taken off; with a pixel of margin
};

// One number for all that is drawn. Equal draw lists give equal numbers within one run.
[[nodiscard]] std::uint64_t hash_of(const ImDrawData& frame);

// The pixels a command may write, at most `screen`. One viewport only: its corner is (0, 0).
[[nodiscard]] Box clip_of(const ImDrawCmd& command, const Box& screen);

// Replaces `patches` by the triangles of `frame` that can be seen on `screen`.
void flatten(const ImDrawData& frame, const Box& screen, std::vector<Patch>& patches);

// At most kMostBoxes boxes, none overlapping, that cover every pixel in which the frames differ.
// Just `screen` when more than about two thirds of it changed: drawing all is cheaper then.
inline constexpr std::size_t kMostBoxes = 12;  // a screen full of countdowns
[[nodiscard]] std::vector<Box> changed(const std::vector<Patch>& before,
                                       const std::vector<Patch>& after, const Box& screen);

}  // namespace ui
