#include "engine/season/brood.h"

#include <algorithm>

namespace engine {
namespace {

constexpr int kCagedLonger = 7;

using At = std::vector<BroodNote>::const_iterator;

// The last caging before a release; the release itself when nobody noted one.
Date caged_before(const std::vector<BroodNote>& notes, At release) {
  for (At n = release; n != notes.begin();)
    if ((--n)->what == BroodFact::QueenCaged) return n->on;
  return release->on;
}

// What the note at `n` makes of the days from its own on.
std::optional<BroodlessWindow> window_of(const std::vector<BroodNote>& notes, At n) {
  switch (n->what) {
    case BroodFact::QueenCaged: {
      const Date first = date_after(n->on, kDaysToBroodless);
      return BroodlessWindow{first, date_after(first, kCagedLonger), true};
    }
    case BroodFact::QueenReleased: {
      const Date first = date_after(caged_before(notes, n), kDaysToBroodless);
      const Date last = date_after(n->on, kDaysToCapped - 1);
      if (first > last) return std::nullopt;
      return BroodlessWindow{first, last, true};
    }
    case BroodFact::NoBrood:
      return BroodlessWindow{n->on, date_after(n->on, kDaysToCapped - 1), false};
    case BroodFact::BroodSeen:
      return std::nullopt;
  }
  return std::nullopt;
}

At last_by(const std::vector<BroodNote>& notes, Date on) {
  return std::upper_bound(notes.begin(), notes.end(), on,
                          [](Date d, const BroodNote& n) { return d < n.on; });
}

}  // namespace

const char* words(BroodState b) {
  constexpr std::array<const char*, 3> kWords{"brood not known", "no brood", "brood present"};
  return kWords[static_cast<std::size_t>(b)];
}

BroodState brood_on(const std::vector<BroodNote>& notes, Date on) {
  const At after = last_by(notes, on);
  if (after == notes.begin()) return BroodState::Unknown;
  const BroodNote& note = *(after - 1);
  const auto window = window_of(notes, after - 1);
  if (note.what == BroodFact::QueenCaged)
    return on >= window->first ? BroodState::None : BroodState::Present;
  if (window && on >= window->first && on <= window->last) return BroodState::None;
  if (note.what == BroodFact::QueenReleased) return BroodState::Present;
  if (note.what == BroodFact::BroodSeen && days_apart(note.on, on) < kDaysBroodBelieved)
    return BroodState::Present;
  return BroodState::Unknown;
}

std::optional<BroodlessWindow> broodless_window(const std::vector<BroodNote>& notes, Date on) {
  const At after = last_by(notes, on);
  if (after == notes.begin()) return std::nullopt;
  const auto window = window_of(notes, after - 1);
  return window && window->last >= on ? window : std::nullopt;
}

}  // namespace engine
