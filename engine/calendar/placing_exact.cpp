// Puts one to three asks back at the least cost: a search over the evenings in their order. A state
// is how many rounds each ask has and where its last one stands; from evening to evening each
// subset of the asks that the evening can hold may get a round. States are given up when what they
// have cost, and what each ask must still cost were it alone and its evenings shared as widely as
// possible, comes to no less than what is known already (branch and bound over dynamic
// programming).
#include <algorithm>
#include <array>
#include <bit>
#include <unordered_map>

#include "engine/calendar/placing.h"

namespace engine::placing {
namespace {

// Beyond so many states the search gives up; the steps that found one before stand.
constexpr std::size_t kMostStates = 400'000;

// What one ask must still cost, were it alone.
class Alone {
 public:
  Alone(const Board& board, std::size_t ask, std::vector<double> stand)
      : board_(&board), ask_(&board.of(ask)), stand_(std::move(stand)), n_(stand_.size()) {
    const auto rounds = static_cast<std::size_t>(std::max(0, ask_->rounds));
    from_.assign(rounds, {});
    for (std::size_t r = rounds; r-- > 1;) {
      std::vector<double>& table = from_[r];
      table.assign(n_ * (n_ + 1), kNever);
      for (std::size_t last = 0; last < n_; ++last)
        for (std::size_t e = n_; e-- > last + 1;)
          table[last * (n_ + 1) + e] =
              std::min(table[last * (n_ + 1) + e + 1],
                       board.step_cost(*ask_, static_cast<int>(last), static_cast<int>(e)) +
                           stand_[e] + after(r + 1, e));
    }
    first_.assign(n_ + 1, kNever);
    for (std::size_t e = n_; rounds > 0 && e-- > 0;)
      first_[e] = std::min(first_[e + 1], begin_cost(e));
  }

  // With `rounds` placed, the last at `last`, from evening `e` on.
  [[nodiscard]] double still(std::size_t rounds, std::size_t last, std::size_t e) const {
    if (rounds >= from_.size()) return 0;
    if (rounds == 0) return std::min(first_[e], kUnplaced);
    return from_[rounds][last * (n_ + 1) + e];
  }
  // The best places were it alone; empty: none.
  [[nodiscard]] Places best() const {
    Places places;
    if (from_.empty() || first_[0] == kNever) return places;
    std::size_t e = 0;
    while (first_[e] == first_[e + 1] || begin_cost(e) > first_[e]) ++e;
    places.push_back(static_cast<int>(e));
    while (places.size() < from_.size()) {
      const std::size_t r = places.size(), last = e;
      const double* row = &from_[r][last * (n_ + 1)];
      for (e = last + 1; row[e] == row[e + 1];) ++e;
      places.push_back(static_cast<int>(e));
    }
    return places;
  }

 private:
  [[nodiscard]] double after(std::size_t rounds, std::size_t e) const {
    return rounds >= from_.size() ? 0 : from_[rounds][e * (n_ + 1) + e + 1];
  }
  [[nodiscard]] double begin_cost(std::size_t e) const {
    return stand_[e] == kNever
               ? kNever
               : board_->first_cost(*ask_, board_->evenings()[e]) + stand_[e] + after(1, e);
  }

  const Board* board_;
  const RoundsAsk* ask_;
  std::vector<double> stand_;  // on each evening, besides gaps and lateness; kNever: not there
  std::size_t n_;
  std::vector<std::vector<double>> from_;
  std::vector<double> first_;
};

using Subset = unsigned;  // of the asks that are out

class Search {
 public:
  Search(Board& board, const std::vector<std::size_t>& out) : board_(board), out_(out) {
    for (std::size_t e = 0; e < evenings(); ++e) look_at(e);
    for (std::size_t i = 0; i < out_.size(); ++i) {
      std::vector<double> stand(evenings(), kNever);
      for (std::size_t e = 0; e < evenings(); ++e) stand[e] = least_share(i, e);
      alone_.emplace_back(board_, out_[i], std::move(stand));
    }
  }

  bool run(double below) {
    if (out_.size() == 1 && !forced_) return put_alone(below);
    nodes_.push_back({0, 0, kNoNode, -1});
    std::vector<std::size_t> now{0};
    for (std::size_t e = 0; e < evenings(); ++e) {
      now = after(e, now, below);
      if (nodes_.size() > kMostStates) return false;
    }
    return put_best_of(now, below);
  }

 private:
  static constexpr std::size_t kNoNode = SIZE_MAX;
  struct Node {
    std::uint64_t key;  // 20 bits an ask: rounds placed (8), the last one's evening (12)
    double cost;
    std::size_t before;
    int evening;  // of the rounds that came last
  };

  [[nodiscard]] std::size_t evenings() const { return board_.evenings().size(); }
  [[nodiscard]] const RoundsAsk& ask(std::size_t i) const { return board_.of(out_[i]); }

  // Which subsets the evening can hold beside the others, none of them among it.
  void look_at(std::size_t e) {
    const Evening& evening = board_.evenings()[e];
    Subset can = 0;
    for (std::size_t i = 0; i < out_.size(); ++i)
      if (ask(i).rounds > 0 && board_.may_stand(out_[i], static_cast<int>(e), out_)) can |= 1U << i;
    unsigned allowed = 0;
    for (Subset s = 0; s < 1U << out_.size(); ++s)
      if ((s & ~can) == 0 && holds(evening, s)) allowed |= 1U << s;
    forced_ = forced_ || (allowed & 1U) == 0;
    allowed_.push_back(allowed);
  }
  [[nodiscard]] bool holds(const Evening& evening, Subset s) const {
    if (s == 0 && evening.held.size() == evening.taken.size()) return true;  // not ours to change
    std::vector<YardId> all = evening.held;
    for (std::size_t i = 0; i < out_.size(); ++i) {
      if ((s >> i & 1U) == 0) continue;
      const auto at = std::lower_bound(all.begin(), all.end(), ask(i).yard);
      if (at != all.end() && *at == ask(i).yard) return false;
      all.insert(at, ask(i).yard);
    }
    return all.size() <= 1 ? s == 0 || board_.ask().holds(evening.on, all)
                           : board_.ask().holds(evening.on, all);
  }
  // The least that a round of the ask pays of the evening; kNever: it cannot stand there.
  [[nodiscard]] double least_share(std::size_t i, std::size_t e) const {
    int most = 0;
    for (Subset s = 1; s < 1U << out_.size(); ++s)
      if ((allowed_[e] >> s & 1U) != 0 && (s >> i & 1U) != 0)
        most = std::max(most, std::popcount(s));
    if (most == 0) return kNever;
    return board_.evenings()[e].held.empty() ? kPerEvening / most : 0;
  }

  bool put_alone(double below) {
    Places best = alone_[0].best();
    const bool placed = !best.empty();
    const double cost = ask(0).rounds < 1 ? 0 : alone_[0].still(0, 0, 0);
    if (cost >= below - kHair) return false;
    if (placed) board_.put(out_[0], std::move(best));
    return true;
  }

  static std::size_t rounds_in(std::uint64_t key, std::size_t i) { return key >> (20 * i) & 0xffU; }
  static std::size_t last_in(std::uint64_t key, std::size_t i) {
    return key >> (20 * i + 8) & 0xfffU;
  }
  // With one round more, at `e`; where the last one stands no longer matters once all are placed.
  [[nodiscard]] std::uint64_t with_round(std::uint64_t key, std::size_t i, std::size_t e) const {
    const std::size_t rounds = rounds_in(key, i) + 1;
    const bool all = rounds == static_cast<std::size_t>(ask(i).rounds) && !has_twin(i);
    const std::uint64_t part = rounds | (all ? 0 : e << 8);
    return (key & ~(std::uint64_t{0xfffff} << (20 * i))) | part << (20 * i);
  }
  // Another ask of the same yard is out too: the label's distance holds between them.
  [[nodiscard]] bool has_twin(std::size_t i) const {
    for (std::size_t j = 0; j < out_.size(); ++j)
      if (j != i && ask(j).yard == ask(i).yard) return true;
    return false;
  }
  [[nodiscard]] bool far_from_twins(std::uint64_t key, std::size_t i, std::size_t e) const {
    for (std::size_t j = 0; j < out_.size(); ++j) {
      if (j == i || ask(j).yard != ask(i).yard || rounds_in(key, j) == 0) continue;
      const int apart = board_.evenings()[e].day - board_.evenings()[last_in(key, j)].day;
      if (apart < ask(i).label_gap) return false;
    }
    return true;
  }

  // What the subset's rounds cost on evening `e`, gaps with it; kNever: they cannot stand there.
  [[nodiscard]] double cost_of(std::uint64_t key, Subset s, std::size_t e) const {
    double sum = board_.evenings()[e].held.empty() ? kPerEvening : 0;
    for (std::size_t i = 0; i < out_.size(); ++i) {
      if ((s >> i & 1U) == 0) continue;
      const std::size_t rounds = rounds_in(key, i);
      if (rounds >= static_cast<std::size_t>(ask(i).rounds) || !far_from_twins(key, i, e))
        return kNever;
      sum += rounds == 0
                 ? board_.first_cost(ask(i), board_.evenings()[e])
                 : board_.step_cost(ask(i), static_cast<int>(last_in(key, i)), static_cast<int>(e));
    }
    return sum;
  }
  [[nodiscard]] double still(std::uint64_t key, std::size_t e) const {
    double sum = 0;
    for (std::size_t i = 0; i < out_.size(); ++i)
      sum += alone_[i].still(rounds_in(key, i), last_in(key, i), e);
    return sum;
  }

  std::vector<std::size_t> after(std::size_t e, const std::vector<std::size_t>& now, double below) {
    std::vector<std::size_t> next;
    std::unordered_map<std::uint64_t, std::size_t> fresh;
    for (const std::size_t n : now) {
      for (Subset s = 1; s < 1U << out_.size(); ++s)
        if ((allowed_[e] >> s & 1U) != 0) try_subset(e, n, s, below, fresh);
      if ((allowed_[e] & 1U) != 0 && nodes_[n].cost + still(nodes_[n].key, e + 1) < below - kHair)
        next.push_back(n);
    }
    std::vector<std::size_t> made;
    for (const auto& [key, n] : fresh) made.push_back(n);
    std::sort(made.begin(), made.end());  // the same on every machine
    next.insert(next.end(), made.begin(), made.end());
    return next;
  }
  void try_subset(std::size_t e, std::size_t n, Subset s, double below,
                  std::unordered_map<std::uint64_t, std::size_t>& fresh) {
    const std::uint64_t before = nodes_[n].key;
    const double cost = nodes_[n].cost + cost_of(before, s, e);
    if (cost >= below) return;
    std::uint64_t key = before;
    for (std::size_t i = 0; i < out_.size(); ++i)
      if ((s >> i & 1U) != 0) key = with_round(key, i, e);
    if (cost + still(key, e + 1) >= below - kHair) return;
    const auto [at, is_new] = fresh.try_emplace(key, nodes_.size());
    if (is_new)
      nodes_.push_back({key, cost, n, static_cast<int>(e)});
    else if (cost < nodes_[at->second].cost - kHair)
      nodes_[at->second] = {key, cost, n, static_cast<int>(e)};
  }

  [[nodiscard]] double final_cost(const Node& node) const {
    double sum = node.cost;
    for (std::size_t i = 0; i < out_.size(); ++i) {
      const std::size_t rounds = rounds_in(node.key, i);
      const auto all = static_cast<std::size_t>(std::max(0, ask(i).rounds));
      if (rounds == 0 && all > 0) sum += kUnplaced;
      if (rounds > 0 && rounds < all) return kNever;
    }
    return sum;
  }
  bool put_best_of(const std::vector<std::size_t>& now, double below) {
    std::size_t best = kNoNode;
    double least = below - kHair;
    for (const std::size_t n : now)
      if (const double cost = final_cost(nodes_[n]); cost < least) least = cost, best = n;
    if (best == kNoNode) return false;
    std::vector<Places> places(out_.size());
    for (std::size_t n = best; nodes_[n].before != kNoNode; n = nodes_[n].before)
      for (std::size_t i = 0; i < out_.size(); ++i)
        if (rounds_in(nodes_[n].key, i) != rounds_in(nodes_[nodes_[n].before].key, i))
          places[i].push_back(nodes_[n].evening);
    for (std::size_t i = 0; i < out_.size(); ++i) {
      std::reverse(places[i].begin(), places[i].end());
      board_.put(out_[i], std::move(places[i]));
    }
    return true;
  }

  Board& board_;
  const std::vector<std::size_t>& out_;
  std::vector<unsigned> allowed_;  // by evening; bit s: the subset s
  bool forced_ = false;  // an evening must be gone to: without these its rest would not fit
  std::vector<Alone> alone_;
  std::vector<Node> nodes_;
};

}  // namespace

bool put_best(Board& board, const std::vector<std::size_t>& out, double below) {
  return Search(board, out).run(below);
}

}  // namespace engine::placing
