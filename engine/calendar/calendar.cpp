// Each yard's rounds are placed at the least cost while the others stay where they are; yards take
// turns until nothing gets better, from every order of them, then in twos and threes that are taken
// out together. Up to three yards are all of them, so that nothing better is left. The work is
// bounded by counts, never by a clock.
#include "engine/calendar/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "engine/calendar/placing.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using placing::Board;
using Order = std::vector<std::size_t>;

constexpr int kMostTurns = 6;
constexpr std::size_t kMostOrders = 24, kAllOrdersUpTo = 4, kFewOrders = 6, kManyYards = 8;
constexpr int kMostGroups = 160;  // of twos and threes

Order by_urgency(const CalendarAsk& ask) {
  Order order(ask.yards.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return ask.yards[a].urgency > ask.yards[b].urgency;
  });
  return order;
}

// By urgency first; all orders of a few yards, of more each yard first once, forwards and
// backwards.
std::vector<Order> orders_of(const CalendarAsk& ask) {
  const Order first = by_urgency(ask);
  const std::size_t n = first.size();
  std::vector<Order> list{first};
  if (n <= kAllOrdersUpTo) {
    Order next = first;
    std::sort(next.begin(), next.end());
    do {
      if (next != first) list.push_back(next);
    } while (std::next_permutation(next.begin(), next.end()));
    return list;
  }
  const std::size_t most = n > kManyYards ? kFewOrders : kMostOrders;
  for (std::size_t k = 0; k < n && list.size() < most; ++k) {
    Order turned = first;
    std::rotate(turned.begin(), turned.begin() + static_cast<std::ptrdiff_t>(k), turned.end());
    if (k > 0) list.push_back(turned);
    std::reverse(turned.begin(), turned.end());
    list.push_back(turned);
  }
  return list;
}

void descend(Board& board, const Order& order) {
  for (const std::size_t i : order) placing::put_best(board, {i});
  for (int turn = 0; turn < kMostTurns; ++turn) {
    const double before = board.cost();
    for (const std::size_t i : order) {
      board.take_out(i);
      placing::put_best(board, {i});
    }
    if (board.cost() >= before - placing::kHair) return;
  }
}

// Takes these out together and puts them back better, or as they were.
bool improve(Board& board, const std::vector<std::size_t>& group) {
  const double before = board.cost();
  std::vector<placing::Places> places;
  for (const std::size_t i : group) places.push_back(board.places(i));
  for (const std::size_t i : group) board.take_out(i);
  double rest = board.cost();
  for (const std::size_t i : group)
    if (board.of(i).rounds > 0) rest -= placing::kUnplaced;
  if (placing::put_best(board, group, before - rest)) return true;
  for (std::size_t k = 0; k < group.size(); ++k) board.put(group[k], places[k]);
  return false;
}

std::vector<std::vector<std::size_t>> groups_of(std::size_t n, std::size_t size) {
  std::vector<std::vector<std::size_t>> list;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = a + 1; b < n; ++b) {
      if (size == 2) list.push_back({a, b});
      for (std::size_t c = b + 1; size == 3 && c < n; ++c) list.push_back({a, b, c});
    }
  return list;
}

// Twos until none gets better, then threes, as far as the count goes.
void improve_together(Board& board) {
  int left = kMostGroups;
  for (const std::size_t size : {std::size_t{2}, placing::kTogether}) {
    if (board.size() < size) return;
    const auto groups = groups_of(board.size(), size);
    for (std::size_t since = 0, g = 0; since < groups.size() && left > 0; ++since, --left) {
      if (improve(board, groups[g])) since = 0;
      g = (g + 1) % groups.size();
    }
  }
}

Board best_board(const CalendarAsk& ask) {
  Board best(ask);
  if (ask.yards.empty()) return best;
  bool first = true;
  for (const Order& order : orders_of(ask)) {
    Board board(ask);
    descend(board, order);
    if (first || board.cost() < best.cost() - placing::kHair) best = board;
    first = false;
  }
  improve_together(best);
  return best;
}

std::string yard_name(const Farm& farm, YardId yard) {
  const auto at = farm.yards.find(yard);
  return at == farm.yards.end() ? "?" : at->second.name;
}

void judge_gaps(const RoundsAsk& y, PlacedRounds& p, const std::vector<Date>& placed) {
  std::optional<Date> before;
  if (!y.walked.empty()) before = y.last_on;
  for (const Date d : placed) {
    if (before) {
      const int gap = days_apart(*before, d);
      p.longest_gap = std::max(p.longest_gap, gap);
      if (gap < y.gap_least || gap > y.gap_most)
        p.why.push_back(
            fmt::format("{} days from {} to {}, where {} to {} were asked for: no free "
                        "evening with room was left in between.",
                        gap, iso_date(*before), iso_date(d), y.gap_least, y.gap_most));
    }
    before = d;
  }
}

// Gaps that the label makes longer were asked for by nobody else.
CalendarAsk widened(CalendarAsk ask) {
  for (RoundsAsk& y : ask.yards) {
    y.gap_least = std::max(y.gap_least, y.label_gap);
    y.gap_most = std::max(y.gap_most, y.gap_least);
  }
  return ask;
}

}  // namespace

Calendar plan_calendar(const Farm& farm, const CalendarAsk& asked) {
  const CalendarAsk ask = widened(asked);
  const Board board = best_board(ask);
  Calendar out;
  for (std::size_t i = 0; i < ask.yards.size(); ++i) {
    const RoundsAsk& y = ask.yards[i];
    const std::vector<Date> placed = board.dates(i);
    if (placed.empty() && y.rounds > 0) {
      out.no_room.push_back(fmt::format(
          "{}: no evenings for {} found{}; free more evenings, or drive less on one.",
          yard_name(farm, y.yard), counted(static_cast<std::size_t>(y.rounds), "round", "rounds"),
          y.latest ? " until " + iso_date(*y.latest) : ""));
      continue;
    }
    PlacedRounds p;
    p.yard = y.yard;
    p.dates = {y.course, y.is_new ? std::optional(y.yard) : std::nullopt, y.walked};
    p.dates.rounds.insert(p.dates.rounds.end(), placed.begin(), placed.end());
    judge_gaps(y, p, placed);
    out.yards.push_back(std::move(p));
  }
  out.evenings = board.evenings_used();
  return out;
}

}  // namespace engine
