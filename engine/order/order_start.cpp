#include "engine/order/order_start.h"

#include <algorithm>
#include <cassert>

namespace engine::order {
namespace {

// A walk in the making, one act after the other.
struct Making {
  explicit Making(const OrderProblem& yard)
      : y(yard),
        next(yard.first),
        ready(yard.sites, yard.now),
        t(yard.now),
        place(yard.start()),
        vaporizers(yard.free_vaporizers),
        cloths(yard.free_cloths) {
    for (std::size_t s = 0; s < y.sites; ++s) {
      if (next[s] == 1) ready[s] = y.since[s] + y.dwell[s];
      if (next[s] == 2) ready[s] = y.since[s] + y.seal;
    }
  }

  [[nodiscard]] bool possible(std::size_t s) const {
    return next[s] == 2 || (next[s] == 0 && vaporizers > 0) || (next[s] == 1 && cloths > 0);
  }
  [[nodiscard]] double begin(std::size_t s) const {
    const double there = t + y.walk(place, s);
    return next[s] == 0 ? there : std::max(there, ready[s]);
  }
  void act(std::size_t s) {
    const int what = next[s]++;
    t = (what == 0 ? t + y.walk(place, s) : std::max(t + y.walk(place, s), ready[s])) +
        y.handling[what];
    place = s;
    vaporizers += what == 0 ? -1 : what == 1 ? 1 : 0;
    cloths += what == 1 ? -1 : what == 2 ? 1 : 0;
    ready[s] = t + (what == 0 ? y.dwell[s] : what == 1 ? y.seal : 0);
    made.push_back({static_cast<std::int16_t>(s), static_cast<std::int8_t>(what)});
  }
  // The colony with that next act that may be acted on first; y.sites: there is none.
  [[nodiscard]] std::size_t soonest(int what) const {
    std::size_t best = y.sites;
    for (std::size_t s = 0; s < y.sites; ++s)
      if (next[s] == what && (best == y.sites || ready[s] < ready[best])) best = s;
    return best;
  }

  const OrderProblem& y;
  std::vector<int> next;
  std::vector<double> ready;
  double t;
  std::size_t place;
  int vaporizers, cloths;
  Sequence made;
};

}  // namespace

Sequence rotation(const OrderProblem& y) {
  Making m(y);
  while (m.made.size() < y.acts) {
    const auto todo = std::find(m.next.begin(), m.next.end(), 0);
    if (todo != m.next.end() && m.vaporizers > 0) {
      m.act(static_cast<std::size_t>(todo - m.next.begin()));
      continue;
    }
    const std::size_t vapor = m.soonest(1);
    if (vapor != y.sites && m.cloths > 0)
      m.act(vapor);
    else
      m.act(m.soonest(2));
  }
  return m.made;
}

Sequence by_leaning(const OrderProblem& y, const Leaning& lean) {
  Making m(y);
  const double thumbs[] = {lean.set, lean.cover, lean.uncover};
  while (m.made.size() < y.acts) {
    std::size_t best = y.sites;
    double least = kNever;
    for (std::size_t s = 0; s < y.sites; ++s) {
      if (m.next[s] > 2 || !m.possible(s)) continue;
      const double cost = m.begin(s) + thumbs[m.next[s]] + lean.far * y.walk(m.place, s) +
                          (m.next[s] == 0 ? lean.ahead * static_cast<double>(s) : 0);
      if (cost < least) least = cost, best = s;
    }
    assert(best != y.sites);
    m.act(best);
  }
  return m.made;
}

}  // namespace engine::order
