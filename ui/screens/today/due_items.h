// ui/screens/today/due_items.h -- what Today lists, most urgent first.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/rounds/due.h"
#include "ui/screens/base/screen.h"

namespace ui {

struct DueItem {
  // Air: a cloth was left on. Walk: the one under way.
  enum class Kind {
    Air,
    Walk,
    Round,
    ComeBack,
    PostCount,
    Count,
    Coming,
    Kit,
    Label
  } kind = Kind::Round;
  std::string name;  // of the yard, or what it is about
  Row row;
  std::optional<engine::YardId> yard;
  std::optional<engine::CourseId> course;
  std::optional<engine::WalkId> walk{};  // Air: the one that left the cloth on
  std::vector<engine::ColonyId> only;    // come-backs; Air: the colony
  std::vector<std::string> lines;        // what to say about it
  [[nodiscard]] bool walkable() const { return kind == Kind::Round || kind == Kind::ComeBack; }
};

// `due` is that of the look's farm and day.
[[nodiscard]] std::vector<DueItem> due_items(const Look& look, const engine::Due& due);

}  // namespace ui
