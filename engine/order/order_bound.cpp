// Three kinds of bound, each valid by itself: the operator's work and least walking; one colony's
// own chain of dwell and seal; and the earliest ends of the 1st, 2nd, ... covering, which wait for
// vaporizers and for cloths.
#include <algorithm>
#include <numeric>

#include "engine/order/order_times.h"

namespace engine::order {
namespace {

std::vector<std::size_t> to_visit(const OrderProblem& y) {
  std::vector<std::size_t> open;
  for (std::size_t s = 0; s < y.sites; ++s)
    if (y.first[s] < 3) open.push_back(s);
  return open;
}

// Least spanning tree over those places: no walk that touches them all is shorter.
double least_tree(const OrderProblem& y, const std::vector<std::size_t>& places) {
  std::vector<double> near(places.size(), kNever);
  std::vector<bool> in(places.size(), false);
  double sum = 0;
  std::size_t last = 0;
  for (std::size_t n = 1; n < places.size(); ++n) {
    in[last] = true;
    std::size_t next = 0;
    double best = kNever;
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (in[i]) continue;
      near[i] = std::min(near[i], y.walk(places[last], places[i]));
      if (near[i] < best) best = near[i], next = i;
    }
    sum += best;
    last = next;
  }
  return sum;
}

double operator_bound(const OrderProblem& y) {
  std::vector<std::size_t> places = to_visit(y);
  double work = 0;
  for (const std::size_t s : places)
    for (int what = y.first[s]; what < 3; ++what) work += y.handling[what];
  places.push_back(y.start());
  places.push_back(y.gate());
  return y.now + work + least_tree(y, places);
}

// The colony alone, as if nothing else were to do.
double chain_bound(const OrderProblem& y, std::size_t s) {
  double t = y.now + y.walk(y.start(), s);
  if (y.first[s] == 0) t += y.handling[0] + y.dwell[s];
  if (y.first[s] == 1) t = std::max(t, y.since[s] + y.dwell[s]);
  if (y.first[s] <= 1) t += y.handling[1] + y.seal;
  if (y.first[s] == 2) t = std::max(t, y.since[s] + y.seal);
  return t + y.handling[2] + y.walk(s, y.gate());
}

struct Least {
  double hop = kNever;    // between two different colonies
  double first = kNever;  // from the start to a colony that is to be set
  double last = kNever;   // from a colony to the gate
  double dwell = kNever;
};

Least least_of(const OrderProblem& y, const std::vector<std::size_t>& open) {
  Least least;
  for (const std::size_t s : open) {
    least.first = std::min(least.first, y.walk(y.start(), s));
    least.last = std::min(least.last, y.walk(s, y.gate()));
    least.dwell = std::min(least.dwell, y.dwell[s]);
    for (const std::size_t other : open)
      if (other != s) least.hop = std::min(least.hop, y.walk(s, other));
  }
  if (open.size() < 2) least.hop = 0;
  return least;
}

// The end of the n-th covering, counted by their ends: it needs a set of its own, the vaporizer
// that the (n - vaporizers)-th left, and a cloth that was taken away from one of the first
// n - cloths, each at a colony of its own. And the operator does one thing at a time.
double covering_bound(const OrderProblem& y, const std::vector<std::size_t>& open) {
  const Least least = least_of(y, open);
  const double set = y.handling[0], cover = y.handling[1], uncover = y.handling[2];
  std::vector<double> end(open.size() + 1, 0.0);
  const auto v = static_cast<std::size_t>(y.vaporizers), k = static_cast<std::size_t>(y.cloths);
  for (std::size_t n = 1; n <= open.size(); ++n) {
    double e = y.now + least.first + set + least.dwell + cover;
    if (n > 1) {
      e = std::max(e, end[n - 1] + least.hop + cover);
      const double sets =
          static_cast<double>(n) * set + static_cast<double>(n - 1) * (cover + least.hop);
      e = std::max(e, y.now + least.first + sets + cover);
    }
    if (n > v) e = std::max(e, end[n - v] + least.hop + set + least.dwell + cover);
    if (n > k) e = std::max(e, end[n - k] + y.seal + uncover + least.hop + cover);
    end[n] = e;
  }
  return end.back() + y.seal + uncover + least.last;
}

// With one vaporizer every dwell and every walk of it stand one after the other, and the last
// colony's seal comes after all.
double one_vaporizer_bound(const OrderProblem& y, const std::vector<std::size_t>& open) {
  std::vector<std::size_t> places = open;
  places.push_back(y.start());
  places.push_back(y.gate());
  double sum = y.now + least_tree(y, places) + y.seal + y.handling[2];
  for (const std::size_t s : open) sum += y.handling[0] + y.dwell[s] + y.handling[1];
  return sum;
}

}  // namespace

double lower_bound(const OrderProblem& y) {
  const std::vector<std::size_t> open = to_visit(y);
  if (open.empty()) return y.now + y.walk(y.start(), y.gate());
  double bound = operator_bound(y);
  bool fresh = true;  // nothing is under way: the counting bounds hold
  for (const std::size_t s : open) {
    bound = std::max(bound, chain_bound(y, s));
    fresh = fresh && y.first[s] == 0;
  }
  if (!fresh) return bound;
  bound = std::max(bound, covering_bound(y, open));
  return y.vaporizers == 1 ? std::max(bound, one_vaporizer_bound(y, open)) : bound;
}

}  // namespace engine::order
