// engine/calendar/placing.h -- where the rounds of several yards stand on the evenings, and what
// that costs. Private to engine/calendar.
//
// A Board holds the evenings and the rounds placed so far. Some asks (one to three) are taken out
// together and put back at the least cost while the others stay (placing_exact.cpp); a search of
// such steps from many beginnings is plan_calendar (calendar.cpp). Up to three asks are all of
// them, so that the answer is then the best there is.
#pragma once
#include <cstdint>
#include <limits>
#include <vector>

#include "engine/calendar/calendar.h"

namespace engine::placing {

inline constexpr double kNever = std::numeric_limits<double>::infinity();
// What a day or an evening costs. Own choice; only the order of size matters: a gap beyond the
// asked one is worse than a later beginning, that is worse than an evening more.
inline constexpr double kPerGapDay = 50, kPerDayLate = 2, kPerEvening = 3, kPerDayLong = 0.2;
inline constexpr double kUnplaced = 1e6;  // an ask that found no evenings
inline constexpr double kHair = 1e-9;     // sums that are equal on paper differ by less
inline constexpr std::size_t kTogether = 3;

// Indices into the board's evenings, rising; empty: not placed.
using Places = std::vector<int>;

struct Evening {
  Date on{};
  int day = 0;                  // from the first
  std::vector<YardId> held;     // rising
  std::vector<YardId> taken{};  // of these, what stays whatever is planned
  int ours = 0;                 // rounds placed
};

class Board {
 public:
  // The ask must outlive it unchanged.
  explicit Board(const CalendarAsk& ask);

  [[nodiscard]] const CalendarAsk& ask() const { return *ask_; }
  [[nodiscard]] const RoundsAsk& of(std::size_t i) const { return ask_->yards[i]; }
  [[nodiscard]] std::size_t size() const { return ask_->yards.size(); }
  [[nodiscard]] const std::vector<Evening>& evenings() const { return evenings_; }
  [[nodiscard]] const Places& places(std::size_t i) const { return placed_[i]; }
  [[nodiscard]] std::vector<Date> dates(std::size_t i) const;
  [[nodiscard]] int evenings_used() const;  // that hold a round placed here

  void put(std::size_t i, Places at);
  void take_out(std::size_t i);

  // All of it: each ask's own, and the evenings that would not be out anyway.
  [[nodiscard]] double cost() const;
  [[nodiscard]] double own_cost(std::size_t i) const;

  // Whether a round of the ask may stand there, besides what the evening holds: its days, and the
  // label's distance from other rounds of its yard that are not among `out`.
  [[nodiscard]] bool may_stand(std::size_t i, int evening,
                               const std::vector<std::size_t>& out) const;
  // Between two rounds so many days apart; kNever: closer than the label allows.
  [[nodiscard]] static double gap_cost(const RoundsAsk& y, int gap);
  // Of an evening for the first round: late beginnings, and the gap from what was given before.
  [[nodiscard]] double first_cost(const RoundsAsk& y, const Evening& e) const;
  [[nodiscard]] double step_cost(const RoundsAsk& y, int from, int to) const;

 private:
  const CalendarAsk* ask_;
  std::vector<Evening> evenings_;
  std::vector<Places> placed_;
};

// The asks of `out` (at most kTogether), which must not be placed, put where they cost least beside
// the others, evenings that would then be out anew among it. `below`: only if it costs less;
// nothing is placed otherwise, and false returned. Gives up, likewise, beyond a number of states.
bool put_best(Board& board, const std::vector<std::size_t>& out, double below = kNever);

}  // namespace engine::placing
