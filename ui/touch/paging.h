// ui/touch/paging.h -- which items of a list stand on the page that is shown; nothing ever scrolls.
#pragma once
#include <cstddef>

#include "ui/touch/touch.h"

namespace ui {

// PREV, "2 of 5", NEXT; keeps `page` (from 0) inside 0..pages-1. True when it turned.
bool pager(Touch& t, const Rect& rect, int& page, int pages);

struct Paging {
  Rect room;     // for the items
  Rect pager{};  // empty when one page holds all
  std::size_t first = 0, last = 0;
  std::size_t lines = 0;  // of items on a full page
  int pages = 1;

  // Draws the pager where there is more than one page.
  void turn(Touch& t, int& page) const;
};

// Splits `rect` into items of at least `least_h` in `cols` columns, with a pager if needed; keeps
// `page` inside the pages there are.
[[nodiscard]] Paging paging(const Touch& t, const Rect& rect, std::size_t count, std::size_t cols,
                            float least_h, int& page);

}  // namespace ui
