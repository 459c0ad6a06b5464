#include "ui/screens/shell/alarms.h"

#include <algorithm>
#include <cassert>

#include "ui/screens/base/layout.h"

namespace ui {
namespace {

const char* word_of(TroubleKind kind) {
  switch (kind) {
    case TroubleKind::Locked:
      return "Locked";
    case TroubleKind::DiskFull:
      return "Disk full";
    case TroubleKind::Clock:
      return "Clock";
    case TroubleKind::NotShown:
      return "Update";
    case TroubleKind::Contradictions:
      return "Disagree";
    case TroubleKind::Offers:
      return "Proposed";
  }
  return "";
}

bool grave(const Trouble& trouble) {
  return trouble.kind == TroubleKind::Locked || trouble.kind == TroubleKind::DiskFull;
}

// A button that leads to where a trouble is dealt with.
struct Lead {
  const char* label;
  GoTo way;
};

void add(std::vector<Lead>& leads, const Lead& lead) {
  const auto same = [&](const Lead& l) { return l.label == lead.label; };
  if (std::none_of(leads.begin(), leads.end(), same)) leads.push_back(lead);
}

std::vector<Lead> leads_of(const Look& look) {
  static constexpr const char* kBackups = "Backups";
  static constexpr const char* kTablets = "Other tablets";
  std::vector<Lead> leads;
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  if (walking)
    leads.push_back({"Back to the walk", ToScreen{ScreenName::Walk}});
  else
    leads.push_back({"Back to Today", ToScreen{ScreenName::Today}});
  for (const Trouble& trouble : look.troubles) {
    if (trouble.kind == TroubleKind::Locked) add(leads, {kBackups, ToBackups{}});
    if (trouble.kind == TroubleKind::Contradictions || trouble.kind == TroubleKind::Offers)
      add(leads, {kTablets, ToTablets{}});
  }
  if (walking)
    leads.push_back({"Counts", ToScreen{ScreenName::Counts}});
  else
    leads.push_back({"Courses", ToScreen{ScreenName::Courses}});
  return leads;
}

}  // namespace

std::string alarm_label(const std::vector<Trouble>& troubles) {
  assert(!troubles.empty());
  if (troubles.size() == 1) return word_of(troubles.front().kind);
  return engine::counted(troubles.size(), "alarm", "alarms");
}

Surface alarm_surface(const std::vector<Trouble>& troubles) {
  return std::any_of(troubles.begin(), troubles.end(), grave) ? Surface::Alarm : Surface::Warning;
}

Ask alarms_page(Touch& t, const Rect& whole, const Look& look, AlarmsView& view) {
  Rect room = whole;
  const std::size_t n = look.troubles.size();
  head(t, room, "Alarms", engine::counted(n, "thing", "things") + " to look at");
  const std::vector<Lead> leads = leads_of(look);
  std::vector<Act> list;
  for (const Lead& lead : leads) list.push_back({.label = lead.label, .big = list.empty()});
  const auto tapped = acts(t, room, list);
  std::vector<std::string> lines;
  for (const Trouble& trouble : look.troubles)
    lines.push_back(std::string(word_of(trouble.kind)) + ": " + trouble.line);
  if (lines.empty())
    nothing_here(t, room, "Nothing is wrong any more.");
  else
    paragraphs(t, room, view.page, lines);
  return tapped ? Ask{leads[*tapped].way} : Ask{};
}

}  // namespace ui
