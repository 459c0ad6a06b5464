// How far a plan is from the best that a long search finds: simulated annealing over the sequences
// of acts, written against the description of the walk alone (it shares no code with the planner;
// only the yards are the same). Half of its time it begins from a plain order, half from the
// planner's own sequence, which it tries to better. Prints both finishes and the gap; the planner's
// time and the search's stand beside them, in seconds of the processor.
// Usage: order_long [SECONDS a case, 20] [COLONIES...]
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <random>
#include <vector>

#include "tests/bench/yards.h"

namespace {

// Of the processor: other programs may run beside this one.
double seconds_since(std::clock_t begin) {
  return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

// Acts of a colony in their order: 0 set, 1 cover, 2 uncover.
struct Act {
  int what = 0, site = 0;
};
using Acts = std::vector<Act>;

class Search {
 public:
  Search(const engine::OrderCase& yard, unsigned seed) : yard_(yard), dice_(seed) {
    const std::size_t n = yard.sites.size();
    ready_.resize(n), way_.resize(n, std::vector<double>(n)), gate_.resize(n);
    const auto way = [&](const engine::OrderPoint& a, const engine::OrderPoint& b) {
      return std::hypot(a.x - b.x, a.y - b.y) / yard.walk_mps;
    };
    for (std::size_t i = 0; i < n; ++i) {
      gate_[i] = way(yard.gate, yard.sites[i].at);
      for (std::size_t k = 0; k < n; ++k) way_[i][k] = way(yard.sites[i].at, yard.sites[k].at);
    }
  }

  double best_within(double seconds, const Acts& planned) {
    constexpr double kFresh = 60, kBettering = 6;  // s; how much worse is still taken at first
    double best = finish(planned);
    for (int i = 0; i < 2; ++i) {
      best = std::min(best, anneal(start(), kFresh, seconds / 4));
      best = std::min(best, anneal(planned, kBettering, seconds / 4));
    }
    return best;
  }

 private:
  // One colony after the other, each cloth taken off before the next is needed.
  Acts start() {
    std::vector<int> order(yard_.sites.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    std::shuffle(order.begin(), order.end(), dice_);
    Acts acts;
    std::vector<int> covered;
    for (const int site : order) {
      acts.push_back({0, site});
      if (static_cast<int>(covered.size()) == yard_.cloths) {
        acts.push_back({2, covered.front()});
        covered.erase(covered.begin());
      }
      acts.push_back({1, site});
      covered.push_back(site);
    }
    for (const int site : covered) acts.push_back({2, site});
    return acts;
  }

  // 1e18: there are too few vaporizers or cloths for it, or a colony's acts are out of order.
  double finish(const Acts& acts) {
    double t = 0;
    int at = -1, standing = 0, lying = 0;
    std::fill(ready_.begin(), ready_.end(), std::pair{0, 0.0});
    for (const Act& a : acts) {
      auto& [done, from] = ready_[static_cast<std::size_t>(a.site)];
      if (done != a.what) return 1e18;
      t += at < 0 ? gate_[static_cast<std::size_t>(a.site)]
                  : way_[static_cast<std::size_t>(at)][static_cast<std::size_t>(a.site)];
      t = std::max(t, from);
      at = a.site;
      done = a.what + 1;
      if (a.what == 0) {
        if (++standing > yard_.vaporizers) return 1e18;
        t += yard_.handling.load_and_set_s;
        from = t + yard_.sites[static_cast<std::size_t>(a.site)].dwell_s;
      } else if (a.what == 1) {
        --standing;
        if (++lying > yard_.cloths) return 1e18;
        t += yard_.handling.lift_and_cover_s;
        from = t + yard_.seal_s;
      } else {
        --lying;
        t += yard_.handling.uncover_s;
      }
    }
    return t + gate_[static_cast<std::size_t>(at)];
  }

  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(dice_);
  }

  // Moves an act, or a run of acts, to another place; or exchanges two colonies.
  void change(Acts& acts) {
    const std::size_t n = acts.size(), kind = below(4);
    if (kind == 0) {
      const int a = static_cast<int>(below(yard_.sites.size()));
      const int b = static_cast<int>(below(yard_.sites.size()));
      for (Act& act : acts) act.site = act.site == a ? b : act.site == b ? a : act.site;
      return;
    }
    const std::size_t many = kind == 1 ? 1 + below(6) : 1;
    const std::size_t from = below(n - many + 1);
    const std::size_t reach = kind == 3 ? n : 12;
    const std::size_t low = from > reach ? from - reach : 0;
    const std::size_t to = low + below(std::min(n - many, from + reach) - low + 1);
    const auto begin = acts.begin();
    const auto at = [&](std::size_t i) { return begin + static_cast<std::ptrdiff_t>(i); };
    if (to < from)
      std::rotate(at(to), at(from), at(from + many));
    else
      std::rotate(at(from), at(from + many), at(to + many));
  }

  double anneal(Acts now, double hot, double seconds) {
    constexpr double kCold = 0.05;  // s
    const std::clock_t begin = std::clock();
    double value = finish(now), best = value, heat = hot;
    std::uniform_real_distribution<double> chance(0, 1);
    for (int i = 0;; ++i) {
      if (i % 256 == 0) {
        const double gone = seconds_since(begin) / seconds;
        if (gone >= 1) return best;
        heat = hot * std::pow(kCold / hot, gone);
      }
      Acts next = now;
      change(next);
      const double then = finish(next);
      if (then > value && chance(dice_) >= std::exp((value - then) / heat)) continue;
      now.swap(next);
      value = then;
      best = std::min(best, value);
    }
  }

  const engine::OrderCase& yard_;
  std::mt19937 dice_;
  std::vector<std::pair<int, double>> ready_;
  std::vector<std::vector<double>> way_;
  std::vector<double> gate_;
};

Acts acts_of(const engine::OrderPlan& plan) {
  Acts acts;
  for (const engine::OrderStep& s : plan.steps) acts.push_back({static_cast<int>(s.act), s.site});
  return acts;
}

}  // namespace

int main(int argc, char** argv) {
  const double seconds = argc > 1 ? std::atof(argv[1]) : 20;
  std::vector<int> sizes;
  for (int i = 2; i < argc; ++i) sizes.push_back(std::max(1, std::atoi(argv[i])));
  if (sizes.empty()) sizes = {6, 8, 10, 16, 40, 100};
  fmt::print(
      "layout     n  vap cloths   planned s    long search s      gap   plan ms  search s\n");
  double worst = -1;
  for (const int n : sizes)
    for (int layout = 0; layout < 4; ++layout)
      for (const auto& [v, k] : {std::pair{1, 3}, {2, 6}, {3, 12}}) {
        const engine::OrderCase c = bench::yard(layout, static_cast<std::size_t>(n), v, k);
        const std::clock_t begin = std::clock();
        const engine::OrderPlan plan = engine::plan_order(c);
        const double took = seconds_since(begin), planned = plan.finish_s;
        const double found = Search(c, 7).best_within(seconds, acts_of(plan));
        const double gap = 100 * (planned / found - 1);
        worst = std::max(worst, gap);
        fmt::print("{:<9} {:>3} {:>4} {:>6} {:>11.1f} {:>16.1f} {:>+7.2f}% {:>9.1f} {:>9.0f}\n",
                   bench::kLayouts[layout], n, v, k, planned, found, gap, 1000 * took, seconds);
        std::fflush(stdout);
      }
  fmt::print("the planner is at most {:.2f}% behind\n", worst);
}
