#include "ui/screens/counts/count_dots.h"

#include <algorithm>

#include "ui/screens/base/roles.h"
#include "ui/touch/ink_pen.h"
#include "ui/touch/marks.h"

namespace ui {

namespace {

constexpr double kMost = 3;         // thresholds that the strip is wide
constexpr std::size_t kRanges = 3;  // of more colonies the ranges would hide the dots

}  // namespace

void draw_count_dots(Touch& t, const Rect& rect, const engine::YardCount& count) {
  const Skin& skin = t.theme()[t.surface_at(rect)];
  const double full = std::max(0.1, count.threshold.per_100) * kMost;
  const float dot = std::min(t.mm(1.3F), rect.h / 3);
  const Rect way = inset(rect, dot + 1, 0);
  const auto x = [&](double rate) {
    return way.x + way.w * static_cast<float>(std::clamp(rate / full, 0.0, 1.0));
  };
  const InkPen thin{t.draw(), skin.quiet, std::max(1.0F, t.mm(0.25F))};
  const InkPen strong{t.draw(), skin.ink, t.mm(0.6F)};
  thin.line(way.x, way.bottom() - 1, way.right(), way.bottom() - 1);
  const float at = x(count.threshold.per_100);
  strong.line(at, rect.y, at, rect.bottom());
  const auto n = static_cast<float>(count.colonies.size());
  for (std::size_t i = 0; i < count.colonies.size(); ++i) {
    const auto& e = count.colonies[i].estimate;
    const float part = (static_cast<float>(i) + 0.5F) / n;
    const float y = rect.y + dot + (rect.h - 2 * dot - t.mm(0.4F)) * part;
    if (count.colonies.size() <= kRanges) thin.line(x(e.low), y, x(e.high), y);
    if (e.per_100 >= count.threshold.per_100)
      strong.disc(x(e.per_100), y, dot);
    else
      InkPen{t.draw(), skin.ink, t.mm(0.5F)}.ring(x(e.per_100), y, dot * 0.8F);
  }
}

float verdict_high(const Touch& t) {
  const float one = high(t, Role::Headline) + t.mm(3);
  return t.portrait() ? one + high(t, Role::Body) + t.mm(1) : one;
}

void draw_verdict(Touch& t, const Rect& rect, const DecisionLook& look, std::string_view numbers) {
  t.fill(rect, look.surface, t.mm(0.3F));
  Rect room = inset(rect, t.mm(3), t.mm(1.5F));
  Rect line = t.portrait() ? cut_top(room, high(t, Role::Headline), t.mm(1)) : room;
  const float side = high(t, Role::Headline) * 0.8F;
  draw_mark(t.draw(), look.mark, cut_left(line, side, step(t)), t.theme()[look.surface].ink);
  const float word = std::min(wide(t, look.tag, Role::Headline) + 2, line.w);
  say(t, cut_left(line, word, step(t, 2)), look.tag, Role::Headline);
  if (t.portrait()) line = room;
  const Role role =
      role_for(t, numbers, line.w, t.portrait() ? Role::Body : Role::Title, Role::Body);
  say(t, line, shortened(t, numbers, line.w, role), role);
}

}  // namespace ui
