#include "engine/order/order_improve.h"

#include <algorithm>
#include <cmath>

namespace engine::order {
namespace {

// A sequence that can be changed in place and changed back. Changes keep each colony's acts in
// their order; whether vaporizers and cloths are free is asked of the Clockwork.
class Changing {
 public:
  Changing(const Ground& y, Sequence start) : y_(y), seq(std::move(start)), at_(3 * y.sites, 0) {
    note(0, seq.size());
    for (std::size_t s = 0; s < y.sites; ++s)
      if (y.first[s] == 0) whole_.push_back(s);
  }

  // Makes one change; the first place that is other than before, or nothing was done.
  std::optional<std::size_t> change(Dice& dice) {
    old_.clear();
    const std::size_t kind = dice.below(10);
    if (whole_.size() >= 2) {
      if (kind == 0) return swap_colonies(dice);
      if (kind <= 2) return shift_colonies(dice);
      if (kind == 3) return turn_colonies(dice);
    }
    return kind <= 5 ? swap_acts(dice) : move_act(dice);
  }
  void undo() {
    for (auto it = old_.rbegin(); it != old_.rend(); ++it) seq[it->first] = it->second;
    for (const auto& [i, act] : old_) note(i, i + 1);
  }

 private:
  [[nodiscard]] std::size_t& at(const Act& a) { return at_[3 * idx(a.site) + idx(a.what)]; }
  static std::size_t idx(int n) { return static_cast<std::size_t>(n); }
  void note(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) at(seq[i]) = i;
  }
  void put(std::size_t i, Act act) {
    old_.emplace_back(i, seq[i]);
    seq[i] = act;
  }
  [[nodiscard]] std::size_t lowest_old() const {
    std::size_t low = seq.size();
    for (const auto& [i, act] : old_) low = std::min(low, i);
    return low;
  }
  // Of the act at `i`: the places it must stay behind and before.
  [[nodiscard]] std::pair<std::size_t, std::size_t> limits(const Act& a) {
    const std::size_t low =
        a.what > y_.first[idx(a.site)] ? at_[3 * idx(a.site) + idx(a.what) - 1] + 1 : 0;
    const std::size_t high =
        a.what < 2 ? at_[3 * idx(a.site) + idx(a.what) + 1] - 1 : seq.size() - 1;
    return {low, high};
  }

  std::optional<std::size_t> move_act(Dice& dice) {
    constexpr std::size_t kReach = 12;
    const std::size_t i = dice.below(seq.size());
    const Act act = seq[i];
    auto [low, high] = limits(act);
    low = std::max(low, i > kReach ? i - kReach : 0);
    high = std::min(high, i + kReach);
    if (low >= high) return std::nullopt;
    const std::size_t j = low + dice.below(high - low + 1);
    if (i == j) return std::nullopt;
    if (i < j)
      for (std::size_t n = i; n < j; ++n) put(n, seq[n + 1]);
    else
      for (std::size_t n = i; n > j; --n) put(n, seq[n - 1]);
    put(j, act);
    note(std::min(i, j), std::max(i, j) + 1);
    return std::min(i, j);
  }

  // Two acts change places.
  std::optional<std::size_t> swap_acts(Dice& dice) {
    constexpr std::size_t kReach = 30;
    std::size_t i = dice.below(seq.size());
    std::size_t j = std::min(seq.size() - 1, i + 1 + dice.below(kReach));
    if (i == j || seq[i].site == seq[j].site) return std::nullopt;
    if (limits(seq[i]).second < j || limits(seq[j]).first > i) return std::nullopt;
    const Act first = seq[i];
    put(i, seq[j]);
    put(j, first);
    note(i, i + 1);
    note(j, j + 1);
    return i;
  }

  // The colonies that are still to be set, by the place of their setting.
  [[nodiscard]] std::vector<std::size_t>& ranks() {
    std::sort(whole_.begin(), whole_.end(),
              [&](std::size_t a, std::size_t b) { return at_[3 * a] < at_[3 * b]; });
    return whole_;
  }
  // Gives the acts of colony ranks[from + n] to colony `who[n]`.
  std::optional<std::size_t> rename(const std::vector<std::size_t>& ranks, std::size_t from,
                                    const std::vector<std::size_t>& who) {
    places_.clear();
    for (std::size_t n = 0; n < who.size(); ++n)
      for (std::size_t what = 0; what < 3; ++what)
        places_.push_back(at_[3 * ranks[from + n] + what]);
    for (std::size_t n = 0; n < who.size(); ++n)
      for (std::size_t what = 0; what < 3; ++what)
        put(places_[3 * n + what],
            {static_cast<std::int16_t>(who[n]), static_cast<std::int8_t>(what)});
    for (const std::size_t place : places_) note(place, place + 1);
    return lowest_old();
  }

  std::optional<std::size_t> swap_colonies(Dice& dice) {
    const std::vector<std::size_t>& all = whole_;
    const std::size_t a = dice.below(all.size()), b = dice.below(all.size());
    if (a == b) return std::nullopt;
    return rename({all[a], all[b]}, 0, {all[b], all[a]});
  }
  // A stretch of the walk's order, of two colonies or more.
  struct Stretch {
    const std::vector<std::size_t>& all;
    std::size_t from;
    std::vector<std::size_t> who;
  };
  Stretch stretch(Dice& dice, std::size_t most) {
    const std::vector<std::size_t>& all = ranks();
    const std::size_t from = dice.below(all.size() - 1);
    const std::size_t length = 2 + dice.below(std::min(most, all.size() - from - 1));
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(from);
    return {all, from, {begin, begin + static_cast<std::ptrdiff_t>(length)}};
  }
  // One colony is taken out of the walk's order and put in a few ranks on, or back.
  std::optional<std::size_t> shift_colonies(Dice& dice) {
    Stretch s = stretch(dice, 12);
    const bool on = dice.below(2) == 0;
    std::rotate(s.who.begin(), on ? s.who.begin() + 1 : s.who.end() - 1, s.who.end());
    return rename(s.all, s.from, s.who);
  }
  std::optional<std::size_t> turn_colonies(Dice& dice) {
    Stretch s = stretch(dice, 20);
    std::reverse(s.who.begin(), s.who.end());
    return rename(s.all, s.from, s.who);
  }

  const Ground& y_;

 public:
  Sequence seq;

 private:
  std::vector<std::size_t> at_;     // where each act stands
  std::vector<std::size_t> whole_;  // colonies with all three acts to come
  std::vector<std::size_t> places_;
  std::vector<std::pair<std::size_t, Act>> old_;
};

// The threshold after `done` of `tries` changes: falls fast first and slowly at the end.
double threshold(double hot, std::size_t done, std::size_t tries) {
  const double left = 1 - static_cast<double>(done) / static_cast<double>(tries);
  return hot * left * left;
}

}  // namespace

std::uint64_t Dice::roll() {
  std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

Improved improve(const Ground& y, const Sequence& start, std::size_t tries, double hot,
                 double good_enough, Dice dice) {
  // Early acts help even where they do not move the finish yet: a little of their mean counts.
  const double mean_share = 0.02 / static_cast<double>(std::max<std::size_t>(1, y.acts));
  Clockwork clock(y);
  Changing now(y, start);
  Improved best{start, clock.time(start)};
  clock.keep();
  double cost = best.finish + mean_share * clock.sum_of_ends();
  for (std::size_t n = 0; n < tries && best.finish > good_enough && y.acts > 1; ++n) {
    const auto from = now.change(dice);
    if (!from) continue;
    const double finish = clock.time(now.seq, *from);
    const double tried = finish + mean_share * clock.sum_of_ends();
    if (!(tried < cost + threshold(hot, n, tries))) {
      now.undo();
      continue;
    }
    clock.keep();
    cost = tried;
    if (finish < best.finish - 1e-9) best = {now.seq, finish};
  }
  return best;
}

Sequence improve_cost(const Ground& y, const Sequence& start, std::size_t tries, double hot,
                      const Cost& cost_of, Dice dice) {
  Changing now(y, start);
  Sequence best = start;
  double cost = cost_of(start), least = cost;
  for (std::size_t n = 0; n < tries && y.acts > 1; ++n) {
    if (!now.change(dice)) continue;
    const double tried = cost_of(now.seq);
    if (!(tried < cost + threshold(hot, n, tries))) {
      now.undo();
      continue;
    }
    cost = tried;
    if (cost < least - 1e-9) least = cost, best = now.seq;
  }
  return best;
}

}  // namespace engine::order
