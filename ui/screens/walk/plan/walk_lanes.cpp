#include "ui/screens/walk/plan/walk_lanes.h"

#include <algorithm>
#include <chrono>

#include "engine/language/tr.h"
#include "engine/words/lookup.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
namespace {

using engine::OrderDo;

constexpr double kMinute = 60;
constexpr std::size_t kMostTicks = 7;

double since(const engine::Walk& walk, const engine::Stamp& at) {
  return static_cast<double>(engine::elapsed(walk.opened, at).length.count()) / 1000;
}

// A bar of the one who carries it, from one moment to another.
struct Span {
  engine::ColonyId colony;
  double from = 0, to = 0;
};

LaneBar bar_of(const Look& look, const Span& s, Surface surface, Pattern pattern, Mark mark) {
  return {.from = s.from / kMinute,
          .to = std::max(s.to, s.from) / kMinute,
          .word = called(look, s.colony),
          .mark = mark,
          .surface = surface,
          .pattern = pattern};
}

struct Spans {
  std::vector<Span> hands;
  std::map<engine::KitId, std::vector<Span>> vapor, cloths;
  double last = 0;
};

Lanes drawn(const Look& look, const engine::Walk& walk, const Spans& spans) {
  Lanes out;
  out.x_title = tr("minutes");
  out.x = number_scale(0, std::max(1.0, spans.last / kMinute), kMostTicks);
  Lane hands{tr("hands"), {}};
  for (const Span& s : spans.hands)
    hands.bars.push_back(bar_of(look, s, Surface::Action, Pattern::None, Mark::None));
  out.lanes.push_back(std::move(hands));
  const auto add = [&](engine::KitId item, const auto& of, Surface surface, Pattern pattern) {
    Lane lane{engine::kit_called(look.farm, item), {}};
    if (const auto at = of.find(item); at != of.end())
      for (const Span& s : at->second)
        lane.bars.push_back(bar_of(look, s, surface, pattern, Mark::None));
    out.lanes.push_back(std::move(lane));
  };
  for (const engine::KitId v : walk.vaporizers)
    add(v, spans.vapor, Surface::Active, Pattern::Upright);
  for (const engine::KitId c : walk.cloths) add(c, spans.cloths, Surface::Waiting, Pattern::None);
  return out;
}

// Which vaporizer stands where is not in a plan: the first that is free takes the next colony.
struct Standing {
  std::map<engine::KitId, double> free_from;
  std::map<engine::ColonyId, std::pair<engine::KitId, double>> in;
};

void set_down(Standing& all, const engine::PlannedVisit& v) {
  const auto first =
      std::min_element(all.free_from.begin(), all.free_from.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  if (first == all.free_from.end()) return;
  all.in[v.colony] = {first->first, static_cast<double>(v.end.count())};
  first->second = 1e18;
}

void lift(Standing& all, const engine::PlannedVisit& v, Spans& spans) {
  const auto at = all.in.find(v.colony);
  if (at == all.in.end()) return;
  const auto& [vaporizer, from] = at->second;
  spans.vapor[vaporizer].push_back({v.colony, from, static_cast<double>(v.start.count())});
  all.free_from[vaporizer] = static_cast<double>(v.end.count());
  all.in.erase(at);
}

struct Lying {
  engine::KitId cloth;
  double from = 0;
};

// What stands and lies when the plan begins.
void begin_with(const engine::Walk& walk, Standing& standing,
                std::map<engine::ColonyId, Lying>& lying) {
  for (const engine::KitId v : walk.vaporizers) standing.free_from[v] = 0;
  for (const engine::Stop& s : walk.stops) {
    if (s.phase == engine::Phase::UnderVapor) {
      const engine::Treatment& t = s.treatments.back();
      standing.in[s.colony] = {t.vaporizer, since(walk, t.set_at)};
      standing.free_from[t.vaporizer] = 1e18;
    }
    if (s.phase == engine::Phase::Covered && s.treatments.back().cloth)
      lying[s.colony] = {*s.treatments.back().cloth, since(walk, *s.treatments.back().lifted_at)};
  }
}

}  // namespace

Lanes lanes_of_plan(const Look& look, const engine::Walk& walk,
                    const std::vector<engine::PlannedVisit>& visits) {
  Spans spans;
  Standing standing;
  std::map<engine::ColonyId, Lying> lying;
  begin_with(walk, standing, lying);
  for (const engine::PlannedVisit& v : visits) {
    const double start = static_cast<double>(v.start.count());
    const double end = static_cast<double>(v.end.count());
    spans.hands.push_back({v.colony, start, end});
    spans.last = std::max(spans.last, end);
    if (v.act == OrderDo::Set) set_down(standing, v);
    if (v.act == OrderDo::Cover) {
      lift(standing, v, spans);
      if (v.cloth) lying[v.colony] = {*v.cloth, end};
    }
    if (v.act == OrderDo::Uncover && lying.count(v.colony) != 0) {
      const Lying& l = lying[v.colony];
      spans.cloths[l.cloth].push_back({v.colony, l.from, start});
      lying.erase(v.colony);
    }
  }
  return drawn(look, walk, spans);
}

engine::Walk walk_as_opened(engine::Walk walk) {
  for (engine::Stop& s : walk.stops) s = engine::Stop{.colony = s.colony};
  return walk;
}

Lanes lanes_of_done(const Look& look, const engine::Walk& walk) {
  Spans spans;
  const engine::Pace pace = look.farm.setup.pace.value_or(engine::Pace{});
  const double now = since(walk, walk.closed.value_or(look.now));
  const auto touched = [&](engine::ColonyId colony, double end, engine::Seconds hands) {
    spans.hands.push_back({colony, std::max(0.0, end - static_cast<double>(hands.count())), end});
    spans.last = std::max(spans.last, end);
  };
  for (const engine::Stop& s : walk.stops)
    for (const engine::Treatment& t : s.treatments) {
      const double set = since(walk, t.set_at);
      const double lifted = t.lifted_at ? since(walk, *t.lifted_at) : now;
      const double open = t.uncovered_at ? since(walk, *t.uncovered_at) : now;
      touched(s.colony, set, pace.load_and_set);
      spans.vapor[t.vaporizer].push_back({s.colony, set, lifted});
      if (t.lifted_at && !t.lift_inferred) touched(s.colony, lifted, pace.lift_and_cover);
      if (t.cloth) spans.cloths[*t.cloth].push_back({s.colony, lifted, open});
      if (t.cloth && t.uncovered_at && !t.uncover_inferred) touched(s.colony, open, pace.uncover);
    }
  std::sort(spans.hands.begin(), spans.hands.end(),
            [](const Span& a, const Span& b) { return a.from < b.from; });
  return drawn(look, walk, spans);
}

void share_scale(Lanes& a, Lanes& b) {
  const double high = std::max(a.x.high, b.x.high);
  a.x = b.x = number_scale(0, high, kMostTicks);
}

void draw_lanes(Touch& t, Rect room, int& page, const Lanes& all) {
  std::size_t each = all.lanes.size();
  while (each > 1 && lanes_height(t, each, true) > room.h) --each;
  if (each < all.lanes.size()) {
    const Rect foot = cut_bottom(room, t.least_h(), t.gap());
    while (each > 1 && lanes_height(t, each, true) > room.h) --each;
    const int pages = static_cast<int>((all.lanes.size() + each - 1) / each);
    pager(t, foot, page, pages);
  } else {
    page = 0;
  }
  Lanes some = all;
  const std::size_t first =
      std::min(static_cast<std::size_t>(page) * each, all.lanes.size() - each);
  some.lanes.assign(all.lanes.begin() + static_cast<std::ptrdiff_t>(first),
                    all.lanes.begin() + static_cast<std::ptrdiff_t>(first + each));
  room.h = std::min(room.h, lanes_height(t, each, true) * 1.4F);
  lanes(t, room, some);
}

}  // namespace ui
