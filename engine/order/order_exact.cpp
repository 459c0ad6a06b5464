#include "engine/order/order_exact.h"

#include <algorithm>
#include <array>
#include <unordered_map>

namespace engine::order {
namespace {

constexpr std::size_t kMostExact = 8;
constexpr double kHair = 1e-9;  // s; below it two times are one

struct Walked {
  double t = 0;
  std::array<double, kMostExact> ready{};  // of colonies under vapor or covered
  std::uint32_t state = 0;                 // two bits a colony: its next act
  std::uint32_t before = 0;                // index of the walk this one goes on from
  std::uint8_t place = 0;                  // which of the open colonies; kMostExact: the start
  Act act;
};

int next_of(const Walked& w, std::size_t i) { return static_cast<int>(w.state >> (2 * i)) & 3; }

class Search {
 public:
  Search(const OrderProblem& y, double known, std::size_t most)
      : y_(y), known_(known), most_(most) {
    for (std::size_t s = 0; s < y.sites; ++s)
      if (y.first[s] < 3) open_.push_back(s);
  }
  [[nodiscard]] bool small_enough() const { return open_.size() <= kMostExact; }

  std::optional<Sequence> run() {
    all_.push_back(begin());
    std::vector<std::uint32_t> layer{0};
    for (std::size_t n = 0; n < y_.acts; ++n) {
      by_state_.clear();
      for (const std::uint32_t w : layer)
        if (!go_on(w)) return std::nullopt;
      layer.clear();
      for (const auto& [key, walks] : by_state_)
        layer.insert(layer.end(), walks.begin(), walks.end());
      std::sort(layer.begin(), layer.end());  // the same order on every machine
    }
    return best_of(layer);
  }

 private:
  [[nodiscard]] Walked begin() const {
    Walked w;
    w.t = y_.now;
    w.place = kMostExact;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      const std::size_t s = open_[i];
      w.state |= static_cast<std::uint32_t>(y_.first[s]) << (2 * i);
      if (y_.first[s] == 1) w.ready[i] = y_.since[s] + y_.dwell[s];
      if (y_.first[s] == 2) w.ready[i] = y_.since[s] + y_.seal;
    }
    return w;
  }

  [[nodiscard]] double walk(std::uint8_t place, std::size_t i) const {
    return y_.walk(place == kMostExact ? y_.start() : open_[place], open_[i]);
  }

  struct Counted {
    int todo = 0, vapor = 0, covered = 0;
  };
  [[nodiscard]] Counted count(const Walked& w) const {
    Counted n;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      n.todo += next_of(w, i) == 0 ? 1 : 0;
      n.vapor += next_of(w, i) == 1 ? 1 : 0;
      n.covered += next_of(w, i) == 2 ? 1 : 0;
    }
    return n;
  }

  bool go_on(std::uint32_t from) {
    const Counted n = count(all_[from]);
    for (std::size_t i = 0; i < open_.size(); ++i) {
      const int what = next_of(all_[from], i);
      if (what == 3 || (what == 0 && n.vapor >= y_.vaporizers) ||
          (what == 1 && n.covered >= y_.cloths))
        continue;
      Walked w = step(all_[from], i, what);
      w.before = from;
      if (least_finish(w) >= known_ - kHair) continue;
      if (!add(w)) return false;
    }
    return true;
  }

  [[nodiscard]] Walked step(Walked w, std::size_t i, int what) const {
    w.t += walk(w.place, i);
    if (what > 0) w.t = std::max(w.t, w.ready[i]);
    w.t += y_.handling[what];
    w.ready[i] = what == 2 ? 0 : w.t + (what == 0 ? y_.dwell[open_[i]] : y_.seal);
    w.place = static_cast<std::uint8_t>(i);
    w.state += 1U << (2 * i);
    w.act = {static_cast<std::int16_t>(open_[i]), static_cast<std::int8_t>(what)};
    return w;
  }

  [[nodiscard]] bool nowhere_later(const Walked& a, const Walked& b) const {
    if (a.t > b.t + kHair) return false;
    for (std::size_t i = 0; i < open_.size(); ++i)
      if (a.ready[i] > b.ready[i] + kHair && a.ready[i] > b.t) return false;
    return true;
  }

  bool add(const Walked& w) {
    auto& same = by_state_[(w.state << 4) | w.place];
    for (const std::uint32_t other : same)
      if (nowhere_later(all_[other], w)) return true;
    std::erase_if(same, [&](std::uint32_t other) { return nowhere_later(w, all_[other]); });
    if (all_.size() >= most_) return false;
    same.push_back(static_cast<std::uint32_t>(all_.size()));
    all_.push_back(w);
    return true;
  }

  [[nodiscard]] double least_finish(const Walked& w) const {
    double bound = w.t, work = 0, away = 0, dwell = kNever, vapors = 0;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      const int next = next_of(w, i);
      if (next == 3) continue;
      const double there = w.t + walk(w.place, i), home = y_.walk(open_[i], y_.gate());
      for (int what = next; what < 3; ++what) work += y_.handling[what];
      away = std::max(away, walk(w.place, i) + home);
      double end =
          next == 0 ? there + y_.handling[0] + y_.dwell[open_[i]] : std::max(there, w.ready[i]);
      if (next < 2) end += y_.handling[1] + y_.seal;
      bound = std::max(bound, end + y_.handling[2] + home);
      if (next == 0) {
        dwell = std::min(dwell, y_.dwell[open_[i]]);
        vapors += y_.handling[0] + y_.dwell[open_[i]] + y_.handling[1];
      }
    }
    if (work == 0) return w.place == kMostExact ? w.t : w.t + y_.walk(open_[w.place], y_.gate());
    const double tail = y_.seal + y_.handling[2];
    if (vapors > 0) bound = std::max(bound, w.t + vapors / y_.vaporizers + tail);
    return std::max({bound, w.t + work + away, least_by_cloths(w, dwell)});
  }

  // The coverings to come, counted by their ends, as in order_bound.cpp.
  [[nodiscard]] double least_by_cloths(const Walked& w, double dwell) const {
    std::array<double, kMostExact> hot{}, shut{};
    std::size_t vapor = 0, covered = 0, todo = 0;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      const int next = next_of(w, i);
      if (next == 0) ++todo;
      if (next == 1) hot[vapor++] = w.ready[i];
      if (next == 2) shut[covered++] = w.ready[i];
    }
    if (todo + vapor == 0) return w.t;
    std::sort(hot.begin(), hot.begin() + static_cast<std::ptrdiff_t>(vapor));
    std::sort(shut.begin(), shut.begin() + static_cast<std::ptrdiff_t>(covered));
    const auto v = static_cast<std::size_t>(y_.vaporizers);
    const std::size_t free = static_cast<std::size_t>(y_.cloths) - covered;
    std::array<double, kMostExact + 1> end{};
    end[0] = w.t;
    for (std::size_t n = 1; n <= todo + vapor; ++n) {
      double e = end[n - 1] + y_.handling[1];
      if (n <= vapor) e = std::max(e, hot[n - 1] + y_.handling[1]);
      if (n > v) e = std::max(e, end[n - v] + y_.handling[0] + dwell + y_.handling[1]);
      if (n > free) {
        const std::size_t nth = n - free;  // the uncovering it waits for
        const double opened = nth <= covered ? shut[nth - 1] : end[nth - covered] + y_.seal;
        e = std::max(e, opened + y_.handling[2] + y_.handling[1]);
      }
      end[n] = e;
    }
    return end[todo + vapor] + y_.seal + y_.handling[2];
  }

  [[nodiscard]] Sequence best_of(const std::vector<std::uint32_t>& layer) const {
    std::uint32_t best = 0;
    double least = known_ - kHair;
    for (const std::uint32_t w : layer)
      if (const double finish = least_finish(all_[w]); finish < least) least = finish, best = w;
    Sequence seq;
    for (std::uint32_t w = best; w != 0; w = all_[w].before) seq.push_back(all_[w].act);
    std::reverse(seq.begin(), seq.end());
    return seq;
  }

  const OrderProblem& y_;
  const double known_;
  const std::size_t most_;
  std::vector<std::size_t> open_;
  std::vector<Walked> all_;
  std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> by_state_;
};

}  // namespace

std::optional<Sequence> best_below(const OrderProblem& yard, double known, std::size_t most) {
  Search search(yard, known, most);
  return search.small_enough() ? search.run() : std::nullopt;
}

}  // namespace engine::order
