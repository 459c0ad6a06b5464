// ui/screens/answers/trip_lengths.h -- how long walks take, of the next trip or of the calendar,
// planned one yard a frame.
//
// Planning a yard takes longer than a frame may, so a page is drawn first with what is assumed, and
// what was planned is kept while the walk stays the same.
#pragma once
#include <map>
#include <optional>
#include <vector>

#include "engine/trip/walk_length.h"
#include "ui/screens/base/screen.h"

namespace ui {

class TripLengths {
 public:
  // What is to be planned; the window in minutes.
  void about(const Look& look, const std::vector<engine::TripYard>& yards, double window_min);
  // Plans one that is not known yet. False: nothing was left to plan.
  bool plan_one();
  [[nodiscard]] bool settled() const;

  // nullptr: not planned yet, or nothing that the planner could order.
  [[nodiscard]] const engine::WalkLength* of(engine::YardId yard) const;

 private:
  struct Asked {
    engine::OrderCase walk;
    engine::Seconds least{};
    double window_min = 0;
    friend bool operator==(const Asked&, const Asked&) = default;
  };
  struct Known {
    Asked asked;
    std::optional<engine::WalkLength> length;
  };
  [[nodiscard]] static bool still_good(const Known& before, const Asked& now);

  std::map<engine::YardId, Known> known_;
};

}  // namespace ui
