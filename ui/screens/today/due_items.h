// ui/screens/today/due_items.h -- what Today lists, most urgent first.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/agenda/agenda.h"
#include "ui/screens/base/screen.h"

namespace ui {

struct DueItem {
  // Air: a cloth was left on. Walk: one under way. Treat: by its counts, and no rounds are planned.
  enum class Kind {
    Air,
    Walk,
    Treat,
    Round,
    ComeBack,
    DeadOut,
    StripsOut,
    PostCount,
    Sample,
    Count,
    Wait,
    Coming,
    Kit,
    Label
  } kind = Kind::Round;
  std::string name;    // of the yard, or what it is about
  std::string what{};  // what is to be done there: "round 1 of 3"
  Row row;             // its title is name and what in one: what the target is called
  std::optional<engine::YardId> yard;
  std::optional<engine::CourseId> course;
  std::optional<engine::WalkId> walk{};  // Walk: itself; Air: that left the cloth on
  std::vector<engine::ColonyId> only;    // come-backs; Air, DeadOut: the colony
  std::vector<std::string> lines;        // what to say about it
  int hives = 0;                         // that it is about; 0: not said
  [[nodiscard]] bool walkable() const { return kind == Kind::Round || kind == Kind::ComeBack; }
};

// `due` and `agenda` are those of the look's farm and day; the items stand in the agenda's order,
// with what the tablet itself asks for before its counts.
[[nodiscard]] std::vector<DueItem> due_items(const Look& look, const engine::Due& due,
                                             const std::vector<engine::AgendaItem>& agenda);

}  // namespace ui
