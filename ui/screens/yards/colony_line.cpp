// The life of a colony as a line of time: the days at the left, a rail with a mark for what each
// was, and the words. Newest at the top, in pages.
#include "ui/screens/yards/colony_line.h"

#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

constexpr float kBand = 9;      // mm: the least for one thing that happened
constexpr float kDayWide = 24;  // "14 Aug 2026" in small type
constexpr float kRailWide = 8;  // the marks
constexpr float kRailThin = 0.7F;

Mark mark_of(engine::LifeWhat what) {
  constexpr Mark kMarks[] = {Mark::Cloth, Mark::Dot,     Mark::Vapor, Mark::Check,
                             Mark::Cross, Mark::Return,  Mark::Check, Mark::Right,
                             Mark::Open,  Mark::Warning, Mark::Dot,   Mark::Cross};
  return kMarks[static_cast<std::size_t>(what)];
}

const std::vector<engine::LifeItem>& life_of(const Look& look, YardsView& v, engine::ColonyId id) {
  const std::size_t read = look.book.entries();
  if (!v.life || v.life->entries != read || v.life->colony != id)
    v.life = {read, id,
              engine::timeline(look.farm, look.book, id, engine::units_of(look.farm.setup))};
  return v.life->items;
}

float words_wide(const Touch& t, float width) { return width - t.mm(kDayWide + kRailWide + 3); }

float band_high(const Touch& t, const engine::LifeItem& item, float width) {
  const float words = text_height(t, item.words, words_wide(t, width), Size::Small) + t.mm(1.5F);
  return std::max(t.mm(kBand), words);
}

// Where each page begins, newest first.
std::vector<std::size_t> page_starts(const Touch& t, const std::vector<engine::LifeItem>& life,
                                     const Rect& room) {
  std::vector<std::size_t> starts = {0};
  float used = 0;
  for (std::size_t i = 0; i < life.size(); ++i) {
    const float high = band_high(t, life[life.size() - 1 - i], room.w);
    if (used + high > room.h && used > 0) {
      starts.push_back(i);
      used = 0;
    }
    used += high;
  }
  return starts;
}

void draw_item(Touch& t, Rect band, const engine::LifeItem& item, bool new_day, Size size) {
  const Rect day = cut_left(band, t.mm(kDayWide), t.mm(1));
  const Rect rail = cut_left(band, t.mm(kRailWide), t.mm(2));
  if (new_day)
    text(t, day, day_words(item.on).substr(4), {.size = Size::Small, .align = Align::Right});
  const Surface ground = item.warns ? Surface::Warning : Surface::Panel;
  const float side = std::min(rail.w, t.mm(kBand)) * 0.82F;
  const Rect box{rail.mid_x() - side / 2, rail.mid_y() - side / 2, side, side};
  t.fill(box, ground);
  draw_mark(t.draw(), mark_of(item.what), inset(box, t.mm(0.8F)), t.theme()[ground].ink);
  text(t, band, item.words, {.size = size});
}

// One size for all of a page: the larger one where everything on it stands in that.
Size size_for(const Touch& t, const std::vector<engine::LifeItem>& life, std::size_t first,
              std::size_t last, float width) {
  for (std::size_t i = first; i < last; ++i) {
    const engine::LifeItem& item = life[life.size() - 1 - i];
    if (!stands_in(t, item.words, words_wide(t, width), band_high(t, item, width), Size::Body))
      return Size::Small;
  }
  return Size::Body;
}

}  // namespace

void colony_line(Touch& t, const Rect& rect, const Look& look, YardsView& v,
                 engine::ColonyId colony) {
  const auto& life = life_of(look, v, colony);
  Rect room = rect;
  std::vector<std::size_t> starts = page_starts(t, life, room);
  if (starts.size() > 1) {
    const Rect foot = cut_bottom(room, t.least_h(), t.gap());
    starts = page_starts(t, life, room);
    pager(t, foot, v.fact_page, static_cast<int>(starts.size()));
  }
  v.fact_page = std::clamp(v.fact_page, 0, static_cast<int>(starts.size()) - 1);
  const std::size_t first = starts[static_cast<std::size_t>(v.fact_page)];
  const std::size_t next = static_cast<std::size_t>(v.fact_page) + 1;
  const std::size_t last = next < starts.size() ? starts[next] : life.size();
  float high = 0;
  for (std::size_t i = first; i < last; ++i)
    high += band_high(t, life[life.size() - 1 - i], room.w);
  const float x = room.x + t.mm(kDayWide + 1 + kRailWide / 2 - kRailThin / 2);
  t.fill({x, room.y, t.mm(kRailThin), std::min(high, room.h)}, Surface::Muted);
  const Size size = size_for(t, life, first, last, room.w);
  for (std::size_t i = first; i < last; ++i) {
    const engine::LifeItem& item = life[life.size() - 1 - i];
    const bool new_day = i == first || life[life.size() - i].on != item.on;
    draw_item(t, cut_top(room, band_high(t, item, rect.w)), item, new_day, size);
  }
}

}  // namespace ui
