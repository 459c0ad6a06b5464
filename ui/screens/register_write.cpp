#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/register_parts.h"

namespace ui {

namespace {

constexpr int kFolder = 1;
using State = BundleSeen::State;

std::string room_words(std::uint64_t bytes) {
  constexpr double kMega = 1e6, kGiga = 1e9;
  const auto b = static_cast<double>(bytes);
  return b < kGiga ? fmt::format("{:.0f} MB free", b / kMega)
                   : fmt::format("{:.1f} GB free", b / kGiga);
}

Row stick_row(const StickSeen& s) {
  Row row{.title = s.name.empty() ? std::string("Stick without a name") : s.name, .id = s.path};
  row.second = s.free_bytes ? room_words(*s.free_bytes) : std::string("free room not known");
  row.tag = s.read_only ? "READ-ONLY" : "STICK";
  row.mark = s.read_only ? Mark::Warning : Mark::Check;
  row.tag_surface = s.read_only ? Surface::Warning : Surface::Good;
  return row;
}

// Which places there are; the folder by hand comes last.
std::vector<Row> places(const Look& look, const RegisterView& v) {
  std::vector<Row> rows;
  for (const StickSeen& s : look.sticks) rows.push_back(stick_row(s));
  if (!look.log_folder.empty())
    rows.push_back({.title = "On this tablet", .second = look.log_folder});
  rows.push_back({.title = v.folder.empty() ? "Folder by hand" : "Folder by hand: " + v.folder,
                  .second = "tap to write where",
                  .id = "Folder by hand"});
  const int last = static_cast<int>(rows.size()) - 1;
  const int place = std::clamp(v.place, 0, last);
  const bool there = place < last || !v.folder.empty();
  if (there) rows[static_cast<std::size_t>(place)].chosen = true;
  return rows;
}

const StickSeen* chosen_stick(const Look& look, const RegisterView& v) {
  const auto at = static_cast<std::size_t>(std::max(0, v.place));
  return at < look.sticks.size() ? &look.sticks[at] : nullptr;
}

// Sticks first, then the tablet's own folder if it has one, then the one written by hand.
int hand_place(const Look& look) {
  return static_cast<int>(look.sticks.size()) + (look.log_folder.empty() ? 0 : 1);
}

std::string target_folder(const Look& look, const RegisterView& v) {
  if (const StickSeen* s = chosen_stick(look, v)) return s->read_only ? std::string() : s->path;
  return v.place == hand_place(look) ? v.folder : look.log_folder;
}

std::string why_not_write(const Look& look, const RegisterView& v) {
  if (look.bundle.state == State::Writing) return "being written";
  if (look.farm.log.empty()) return "there are no entries yet";
  const StickSeen* s = chosen_stick(look, v);
  if (s != nullptr && s->read_only) return "this stick is read-only";
  return target_folder(look, v).empty() ? "no stick is in, no folder chosen" : "";
}

// What became of the last log that was asked for.
void outcome(Touch& t, const Rect& rect, const BundleSeen& b) {
  if (b.state == State::None) {
    const std::string lines[] = {
        "Put a stick in, or choose a folder by hand. The log is written, "
        "read back and checked before it counts."};
    told(t, rect, "", lines);
  } else if (b.state == State::Writing) {
    Rect room = panel(t, rect, Surface::Active);
    progress(t, cut_bottom(room, t.mm(7), t.mm(1.5F)), b.part, Surface::Active);
    text(t, room, "Writing. Leave the stick in. " + b.line);
  } else if (b.state == State::Safe) {
    const std::string lines[] = {b.line};
    told(t, rect, "Written: safe to pull", lines, Surface::Good);
  } else {
    const std::string lines[] = {b.line, "Your entries are safe on this tablet."};
    told(t, rect, "Not written", lines, Surface::Alarm);
  }
}

void choose_days(Touch& t, Rect& room, const Look& look, RegisterView& v, engine::Date day) {
  const std::string one = day == look.today() ? "Today" : short_day(day, look.today());
  const std::string options[] = {one, "All days"};
  const Rect at = cut_top(room, choice_height(t, options, room.w), t.gap());
  if (const auto tapped = choice(t, at, options, v.all_days ? 1 : 0)) v.all_days = *tapped == 1;
}

void choose_place(Touch& t, const Rect& room, const Look& look, RegisterView& v) {
  const auto tapped = list_rows(t, room, v.place_page, places(look, v));
  if (!tapped) return;
  v.place = static_cast<int>(*tapped);
  if (v.place == hand_place(look))
    start_words(v.typing, kFolder, v.folder.empty() ? "/" : v.folder);
}

}  // namespace

Ask write_page(Touch& t, Rect room, const Look& look, RegisterView& v, engine::Date day) {
  if (v.typing.field == kFolder) {
    typed_words(t, v.typing, {"Folder to write into", 60}, v.folder);
    return {};
  }
  v.place = std::clamp(v.place, 0, hand_place(look));
  bool back = false;
  head(t, room, "Write the log", "as a folder that any computer can read", &back);
  if (back) v.writing = false;
  const std::string obstacle = why_not_write(look, v);
  const StickSeen* stick = chosen_stick(look, v);
  std::vector<Act> list = {{.label = "Write now",
                            .second = obstacle,
                            .enabled = obstacle.empty(),
                            .surface = Surface::Action,
                            .big = true}};
  if (stick != nullptr)
    list.push_back(
        {.label = "Make it safe to pull", .enabled = look.bundle.state != State::Writing});
  const auto tapped = acts(t, room, list);
  outcome(t, cut_bottom(room, t.mm(38), t.gap()), look.bundle);
  choose_days(t, room, look, v, day);
  choose_place(t, room, look, v);
  if (tapped == 0U)
    return WriteBundle{target_folder(look, v),
                       v.all_days ? std::nullopt : std::optional<engine::Date>(day)};
  if (tapped == 1U && stick != nullptr) return ReleaseStick{stick->path};
  return {};
}

}  // namespace ui
