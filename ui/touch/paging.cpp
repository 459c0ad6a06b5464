#include "ui/touch/paging.h"

#include <fmt/format.h>

#include <algorithm>

#include "ui/touch/buttons.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"

namespace ui {

bool pager(Touch& t, const Rect& rect, int& page, int pages) {
  page = std::clamp(page, 0, std::max(0, pages - 1));
  Rect room = rect;
  const float wide = std::max(t.least_w(), std::min(rect.w * 0.32F, t.mm(50)));
  const Rect left = cut_left(room, wide, t.gap());
  const Rect right = cut_right(room, wide, t.gap());
  const bool back = button(t, left, t.words().previous, {.enabled = page > 0, .mark = Mark::Left});
  const bool on =
      button(t, right, t.words().next, {.enabled = page + 1 < pages, .mark = Mark::Right});
  text(t, room, filled(t.words().page_of, fmt::to_string(page + 1), fmt::to_string(pages)),
       {.align = Align::Center, .quiet = true});
  page += on ? 1 : back ? -1 : 0;
  return on || back;
}

void Paging::turn(Touch& t, int& page) const {
  if (pages > 1) ui::pager(t, pager, page, pages);
}

Paging paging(const Touch& t, const Rect& rect, std::size_t count, std::size_t cols, float least_h,
              int& page) {
  Paging p{rect, {}, 0, count, std::max<std::size_t>(1, fit_count(rect.h, least_h, t.gap())), 1};
  if (count > p.lines * cols) {
    p.pager = cut_bottom(p.room, t.least_h(), t.gap());
    p.lines = std::max<std::size_t>(1, fit_count(p.room.h, least_h, t.gap()));
    p.pages = static_cast<int>((count + p.lines * cols - 1) / (p.lines * cols));
  }
  page = std::clamp(page, 0, p.pages - 1);
  p.first = static_cast<std::size_t>(page) * p.lines * cols;
  p.last = std::min(count, p.first + p.lines * cols);
  // Few items do not swell to fill the screen.
  const float most = least_h * 1.35F;
  const auto lines = static_cast<float>(p.lines);
  p.room.h = std::min(p.room.h, lines * most + (lines - 1) * t.gap());
  return p;
}

}  // namespace ui
