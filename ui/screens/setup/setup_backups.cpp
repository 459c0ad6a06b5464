// Whole copies of the store: made on a stick or on the tablet, also while a walk runs, and taken in
// again. What is taken in is added to what is here; nothing is ever overwritten.
#include "ui/screens/setup/setup_backups.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/tablets/tablets_page.h"

namespace ui {

namespace {

using State = CopiesSeen::State;

// "duskwalk-backup-2026-08-14-1940-ab12.journal" as "Fri 14 Aug 19:40, tablet ab12".
std::string title_of(const CopyFound& copy) {
  constexpr std::size_t kDay = 16, kClock = kDay + 11, kDevice = kClock + 5;
  const std::string& n = copy.name;
  if (n.size() < kDevice + 5) return n;
  const auto day = engine::date_from_iso(std::string_view(n).substr(kDay, 10));
  const std::string device = n.substr(kDevice, n.rfind('.') - kDevice);
  if (!day) return n;
  return fmt::format("{}, {}:{}, tablet {}", day_words(*day), n.substr(kClock, 2),
                     n.substr(kClock + 2, 2), device);
}

std::string size_words(std::uint64_t bytes) {
  constexpr double kKilo = 1e3, kMega = 1e6;
  const auto size = static_cast<double>(bytes);
  return size < kMega ? fmt::format("{:.0f} kB", size / kKilo)
                      : fmt::format("{:.1f} MB", size / kMega);
}

std::string name_of(const StickSeen& stick) {
  return stick.name.empty() ? std::string("the stick") : stick.name;
}

// Sticks first, then the tablet itself. A locked store is gone on from, or copied as it is.
std::vector<Act> list_of(const Look& look, std::size_t sticks) {
  const bool locked = look.mendable, busy = look.copies.state == State::Copying;
  std::vector<Act> list;
  if (locked)
    list.push_back({.label = "Go on with what can be read",
                    .second = "the old one is kept",
                    .enabled = !busy,
                    .surface = Surface::Warning,
                    .hold = true,
                    .big = true});
  for (std::size_t i = 0; i < sticks; ++i) {
    const StickSeen& s = look.sticks[i];
    list.push_back({.label = (locked ? "Copy it as it is to " : "Back up to ") + name_of(s),
                    .second = s.read_only ? "this stick is read-only" : "",
                    .enabled = !busy && !s.read_only,
                    .surface = locked ? Surface::Button : Surface::Action,
                    .big = i == 0 && !locked});
  }
  list.push_back({.label = locked ? "Copy it on this tablet" : "Back up on this tablet",
                  .second = look.sticks.empty() ? "or put a stick in" : "",
                  .enabled = !busy && !look.log_folder.empty()});
  return list;
}

void outcome(Touch& t, const Rect& rect, const CopiesSeen& copies) {
  if (copies.state == State::Copying) {
    Rect room = panel(t, rect, Surface::Active);
    progress(t, cut_bottom(room, t.mm(7), t.mm(1.5F)), copies.part, Surface::Active);
    text(t, room, "Copying. Go on working; leave the stick in.");
  } else if (copies.state == State::Done) {
    told(t, rect, copies.name.starts_with("duskwalk-locked-") ? "Copied" : "Backed up",
         std::vector{copies.line, copies.name}, Surface::Good);
  } else {
    told(t, rect, "Not backed up", std::vector{copies.line}, Surface::Alarm);
  }
}

}  // namespace

Ask backups_page(Touch& t, Rect room, const Look& look, SetupView& v) {
  bool back = false;
  head(t, room, "Backups", "whole copies of every entry, checked by reading them back", &back);
  if (back) v.backups = false;
  const std::size_t sticks = std::min<std::size_t>(look.sticks.size(), 2);
  const auto act = acts(t, room, list_of(look, sticks));
  if (look.copies.state != State::None) outcome(t, cut_top(room, t.mm(28), t.gap()), look.copies);
  const auto& found = look.copies.found;
  if (found.empty()) {
    nothing_here(t, room,
                 "No backup lies on this tablet or on a stick. Make one now and then, and keep it "
                 "away from the tablet.");
  } else {
    const auto tapped = list_rows(t, room, v.page, found.size(), [&](std::size_t i) {
      Row row{.title = title_of(found[i]),
              .second = size_words(found[i].bytes) + ", " + found[i].where,
              .id = found[i].path};
      fit_row(t, row, room.w);
      return row;
    });
    if (tapped) v.copy = found[*tapped].path, v.taken_in = false;
  }
  if (!act) return {};
  if (look.mendable && *act == 0) return MendStore{};
  const std::size_t place = look.mendable ? *act - 1 : *act;
  if (place < sticks) return CopyStore{look.sticks[place].path, true};
  return CopyStore{look.log_folder};
}

Ask backup_page(Touch& t, Rect room, const Look& look, SetupView& v) {
  const auto& all = look.copies.found;
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const CopyFound& c) { return c.path == *v.copy; });
  bool back = false;
  const bool done = v.taken_in && look.taken_in.folder == *v.copy;
  head(t, room, done ? taken_in_title(look.taken_in) : "Take in a backup",
       at == all.end() ? "it is not there any more" : title_of(*at), &back);
  if (back) return v.copy.reset(), Ask{};
  if (done) return paragraphs(t, room, v.page, taken_in_lines(look.taken_in)), Ask{};
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  const Act list[] = {{.label = "Take it in",
                       .second = walking         ? "end the walk first"
                                 : look.mendable ? "the store is locked"
                                                 : "",
                       .enabled = at != all.end() && !walking && !look.mendable,
                       .surface = Surface::Action,
                       .big = true}};
  const bool take = acts(t, room, list).has_value();
  const std::string lines[] = {
      "Every entry of the backup that is not here yet is added, as it was written and by whom. "
      "Nothing that is here is overwritten or removed.",
      "On a new tablet this is how you go on: take in the newest backup, then what the other "
      "tablets wrote since.",
      "What is entered from now on stands under this tablet's own id, so that no two entries "
      "ever share a number."};
  paragraphs(t, room, v.page, lines);
  if (!take) return {};
  v.taken_in = true;
  return TakeInCopy{*v.copy};
}

}  // namespace ui
