#include "engine/order/order_path.h"

#include <algorithm>

namespace engine::order {
namespace {

std::size_t idx(int n) { return static_cast<std::size_t>(n); }

}  // namespace

IndexedSequence::IndexedSequence(const OrderProblem& yard, Sequence start)
    : seq_(std::move(start)), at_(3 * yard.sites, 0) {
  for (std::size_t i = 0; i < seq_.size(); ++i) put(i, seq_[i]);
}

LongestPaths::LongestPaths(const OrderProblem& yard, const IndexedSequence& now)
    : yard_(yard), before_(now.size() + 1), tail_(now.size() + 1, 0.0), ready_(2 * yard.sites) {
  for (std::size_t s = 0; s < yard.sites; ++s)
    if (const int next = yard.first[s]; next == 1 || next == 2)
      ready(s, idx(next)).settled = ready_at_first(yard, s);
  before_[0] = beginning(yard);
  settle(now, {0, now.size() - 1});
}

// From `place`, where the act at `i` has just ended, to the finish by the next act.
double LongestPaths::way_on(const IndexedSequence& now, std::size_t i, std::size_t place) const {
  if (i + 1 == now.size()) return yard_.walk(place, yard_.gate());
  return yard_.walk(place, idx(now[i + 1].site)) + tail_[i + 1];
}

void LongestPaths::settle(const IndexedSequence& now, Stretch changed) {
  Moment m = before_[changed.from];
  for (std::size_t i = changed.from; i < now.size(); ++i) {
    const Act act = now[i];
    const std::size_t site = idx(act.site), what = idx(act.what);
    step(yard_, m, act, what == 0 ? yard_.now : ready(site, what).settled);
    if (what < 2) ready(site, what + 1).settled = m.t + wait_after(yard_, act);
    before_[i + 1] = m;
  }
  before_.back().walk += yard_.walk(m.place, yard_.gate());
  finish_ = m.t + yard_.walk(m.place, yard_.gate());
  for (std::size_t i = changed.to + 1; i-- > 0;) {
    const Act act = now[i];
    double on = way_on(now, i, idx(act.site));
    if (act.what < 2)
      on = std::max(on, wait_after(yard_, act) + tail_[now.at(idx(act.site), idx(act.what) + 1)]);
    tail_[i] = yard_.handling[act.what] + on;
  }
}

LongestPaths::Tried LongestPaths::tried(const IndexedSequence& now, Stretch changed, double limit) {
  Moment m = before_[changed.from];
  ++trial_;
  Tried t{0, 0, 0};
  for (std::size_t i = changed.from; i <= changed.to; ++i) {
    const Act act = now[i];
    const std::size_t site = idx(act.site), what = idx(act.what);
    double ready_at = yard_.now;
    if (what > 0) {
      const Ready& r = ready(site, what);
      ready_at = r.of == trial_ ? r.tried : r.settled;
    }
    ++t.timed;
    if (!step(yard_, m, act, ready_at)) return {kNever, kNever, t.timed};
    if (m.t + tail_[i + 1] > limit + kWinsBack) return {kNever, kNever, t.timed};
    if (what == 2) continue;
    Ready& next = ready(site, what + 1);
    next.tried = m.t + wait_after(yard_, act);
    next.of = trial_;
    const std::size_t place = now.at(site, what + 1);
    if (place <= changed.to) continue;
    t.finish = std::max(t.finish, next.tried + tail_[place]);
    if (t.finish > limit) return {kNever, kNever, t.timed};
  }
  t.finish = std::max(t.finish, m.t + way_on(now, changed.to, m.place));
  t.walk = walk() + m.walk - before_[changed.to + 1].walk;
  if (changed.to + 1 < now.size()) {
    const std::size_t next = idx(now[changed.to + 1].site);
    t.walk += yard_.walk(m.place, next) - yard_.walk(before_[changed.to + 1].place, next);
  } else {
    t.walk += yard_.walk(m.place, yard_.gate());
  }
  if (t.finish < finish_) t.finish = std::max(t.finish, longest_past(now, changed));
  return t;
}

// Of the paths that go from before the stretch straight to behind it. None was longer than the
// finish that counts.
double LongestPaths::longest_past(const IndexedSequence& now, Stretch changed) {
  double longest = 0;
  for (std::size_t s = 0; s < yard_.sites; ++s)
    for (auto what = idx(std::max(1, yard_.first[s])); what < 3; ++what) {
      const bool begun = idx(yard_.first[s]) == what || now.at(s, what - 1) < changed.from;
      const std::size_t place = now.at(s, what);
      if (begun && place > changed.to)
        longest = std::max(longest, ready(s, what).settled + tail_[place]);
    }
  return longest;
}

}  // namespace engine::order
