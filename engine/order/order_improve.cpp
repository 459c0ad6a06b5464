#include "engine/order/order_improve.h"

#include <algorithm>

#include "engine/order/order_path.h"

namespace engine::order {
namespace {

// A sequence that can be changed in place and changed back. Changes keep each colony's acts in
// their order; whether vaporizers and cloths are free is asked of who times it.
class Changing {
 public:
  Changing(const OrderProblem& y, Sequence start) : y_(y), now_(y, std::move(start)) {
    for (std::size_t s = 0; s < y.sites; ++s)
      if (y.first[s] == 0) whole_.push_back(s);
  }

  [[nodiscard]] const IndexedSequence& now() const { return now_; }

  // Makes one change; the stretch that may be other than before, or nothing was done.
  std::optional<Stretch> change(Dice& dice) {
    old_.clear();
    // The shares were tried out on 28 yards of 40 colonies; around them little changes.
    const std::size_t kind = dice.below(100);
    if (whole_.size() >= 2) {
      if (kind < 30) return swap_colonies(dice);
      if (kind < 33) return shift_colonies(dice);
      if (kind < 36) return turn_colonies(dice);
    }
    return kind < 68 ? swap_acts(dice) : move_act(dice);
  }
  // How many places the last change wrote to.
  [[nodiscard]] std::size_t written() const { return old_.size(); }
  void undo() {
    for (auto it = old_.rbegin(); it != old_.rend(); ++it) now_.put(it->first, it->second);
  }

 private:
  static std::size_t idx(int n) { return static_cast<std::size_t>(n); }
  void put(std::size_t i, Act act) {
    old_.emplace_back(i, now_[i]);
    now_.put(i, act);
  }
  // Of an act: the places it must stay behind and before.
  [[nodiscard]] Stretch limits(const Act& a) const {
    const std::size_t site = idx(a.site), what = idx(a.what);
    return {a.what > y_.first[site] ? now_.at(site, what - 1) + 1 : 0,
            a.what < 2 ? now_.at(site, what + 1) - 1 : now_.size() - 1};
  }

  std::optional<Stretch> move_act(Dice& dice) {
    constexpr std::size_t kReach = 12;
    const std::size_t i = dice.below(now_.size());
    const Act act = now_[i];
    const Stretch free = limits(act);
    const std::size_t low = std::max(free.from, i > kReach ? i - kReach : 0);
    const std::size_t high = std::min(free.to, i + kReach);
    if (low >= high) return std::nullopt;
    const std::size_t j = low + dice.below(high - low + 1);
    if (i == j) return std::nullopt;
    if (i < j)
      for (std::size_t n = i; n < j; ++n) put(n, now_[n + 1]);
    else
      for (std::size_t n = i; n > j; --n) put(n, now_[n - 1]);
    put(j, act);
    return Stretch{std::min(i, j), std::max(i, j)};
  }

  // Two acts change places.
  std::optional<Stretch> swap_acts(Dice& dice) {
    constexpr std::size_t kReach = 30;
    const std::size_t i = dice.below(now_.size());
    const std::size_t j = std::min(now_.size() - 1, i + 1 + dice.below(kReach));
    if (i == j || now_[i].site == now_[j].site) return std::nullopt;
    if (limits(now_[i]).to < j || limits(now_[j]).from > i) return std::nullopt;
    const Act first = now_[i];
    put(i, now_[j]);
    put(j, first);
    return Stretch{i, j};
  }

  // The colonies that are still to be set, by the place of their setting: nearly in order from the
  // time before.
  void rank() {
    for (std::size_t n = 1; n < whole_.size(); ++n)
      for (std::size_t k = n; k > 0 && now_.at(whole_[k], 0) < now_.at(whole_[k - 1], 0); --k)
        std::swap(whole_[k], whole_[k - 1]);
  }
  // Gives the places of each colony of `had_` to the one with the same number in `gets_`.
  Stretch rename() {
    places_.clear();
    for (const std::size_t site : had_)
      for (std::size_t what = 0; what < 3; ++what) places_.push_back(now_.at(site, what));
    Stretch changed{now_.size(), 0};
    for (std::size_t n = 0; n < places_.size(); ++n) {
      put(places_[n], {static_cast<std::int16_t>(gets_[n / 3]), static_cast<std::int8_t>(n % 3)});
      changed = {std::min(changed.from, places_[n]), std::max(changed.to, places_[n])};
    }
    return changed;
  }

  std::optional<Stretch> swap_colonies(Dice& dice) {
    const std::size_t a = whole_[dice.below(whole_.size())];
    const std::size_t b = whole_[dice.below(whole_.size())];
    if (a == b) return std::nullopt;
    had_ = {a, b};
    gets_ = {b, a};
    return rename();
  }
  // Some colonies that are set one after the other, two or more.
  void take_some(Dice& dice, std::size_t most) {
    rank();
    const std::size_t from = dice.below(whole_.size() - 1);
    const std::size_t length = 2 + dice.below(std::min(most, whole_.size() - from - 1));
    const auto begin = whole_.begin() + static_cast<std::ptrdiff_t>(from);
    had_.assign(begin, begin + static_cast<std::ptrdiff_t>(length));
    gets_ = had_;
  }
  // One colony is taken out of the walk's order and put in a few ranks on, or back.
  std::optional<Stretch> shift_colonies(Dice& dice) {
    take_some(dice, 12);
    const bool on = dice.below(2) == 0;
    std::rotate(gets_.begin(), on ? gets_.begin() + 1 : gets_.end() - 1, gets_.end());
    return rename();
  }
  std::optional<Stretch> turn_colonies(Dice& dice) {
    take_some(dice, 20);
    std::reverse(gets_.begin(), gets_.end());
    return rename();
  }

  const OrderProblem& y_;
  IndexedSequence now_;
  std::vector<std::size_t> whole_;                // colonies with all three acts to come
  std::vector<std::size_t> had_, gets_, places_;  // of a change of names
  std::vector<std::pair<std::size_t, Act>> old_;
};

// What a second of walking weighs beside a second of the finish: with one vaporizer there is time
// to walk to and fro, but nobody likes to. Own choices, both.
constexpr double kWalkWeighs = 0.02;
constexpr double kMostByWalk = 5;  // s; more than less walking can weigh against a later finish

constexpr double kHair = 1e-9;  // s

// The threshold when that share of the work is done: falls fast first and slowly at the end.
double threshold(double hot, double done) { return hot * (1 - done) * (1 - done); }

}  // namespace

std::uint64_t Dice::roll() {
  std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

Improved improve(const OrderProblem& y, const Sequence& start, double acts_timed, double hot,
                 double good_enough, Dice dice) {
  if (y.acts < 2) return {start, SequenceTimer(y).time(start)};
  // What else there is to do, in the time that it takes to time an act.
  constexpr double kOfChange = 8, kOfPlace = 2, kOfSettling = 1.5;
  Changing change(y, start);
  LongestPaths paths(y, change.now());
  Improved best{start, paths.finish()};
  double least_walk = paths.walk();
  for (double done = 0; done < acts_timed && best.finish > good_enough; done += kOfChange) {
    const auto changed = change.change(dice);
    if (!changed) continue;
    const double limit = paths.finish() + threshold(hot, done / acts_timed);
    const auto tried = paths.tried(change.now(), *changed, limit + kMostByWalk);
    done += static_cast<double>(tried.timed) + kOfPlace * static_cast<double>(change.written());
    if (!(tried.finish + kWalkWeighs * (tried.walk - paths.walk()) < limit)) {
      change.undo();
      continue;
    }
    paths.settle(change.now(), *changed);
    done += kOfSettling * static_cast<double>(y.acts);
    const double sooner = best.finish - paths.finish();
    if (sooner < -kHair || (sooner < kHair && paths.walk() >= least_walk)) continue;
    best = {change.now().seq(), paths.finish()};
    least_walk = paths.walk();
  }
  return best;
}

Sequence improve_cost(const OrderProblem& y, const Sequence& start, std::size_t tries, double hot,
                      const Cost& cost_of, Dice dice) {
  Changing change(y, start);
  Sequence best = start;
  double cost = cost_of(start), least = cost;
  for (std::size_t n = 0; n < tries && y.acts > 1; ++n) {
    if (!change.change(dice)) continue;
    const double tried = cost_of(change.now().seq());
    if (!(tried < cost + threshold(hot, static_cast<double>(n) / static_cast<double>(tries)))) {
      change.undo();
      continue;
    }
    cost = tried;
    if (cost < least - 1e-9) least = cost, best = change.now().seq();
  }
  return best;
}

}  // namespace engine::order
