// ui/screens/base/tried.h -- what striking or correcting an entry would do, tried once.
//
// Trying takes as long as saving, so it is done when the entry, its words or the log have changed,
// not in every frame.
#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "ui/screens/base/screen.h"

namespace ui {

struct Tried {
  engine::Refusal refusal = engine::Refusal::None;
  std::string fall;  // "2 counts of 14 Aug": what would no longer count with it; empty: nothing
};

class TriedOnce {
 public:
  // Of a strike, a correction or a taking back; their reasons do not matter.
  const Tried& of(const Look& look, const engine::Body& body);

 private:
  std::optional<std::size_t> at_;  // entries of the log
  engine::Body body_;
  Tried tried_;
};

}  // namespace ui
