#include "ui/screens/register/register_write.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/register/day.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr int kFolder = 1;
using State = BundleSeen::State;
using Kind = LogPlace::Kind;

std::string room_words(std::uint64_t bytes) {
  constexpr double kMega = 1e6, kGiga = 1e9;
  const auto b = static_cast<double>(bytes);
  return b < kGiga ? fmt::format("{:.0f} MB free", b / kMega)
                   : fmt::format("{:.1f} GB free", b / kGiga);
}

const StickSeen* stick_at(const Look& look, const std::string& path) {
  const auto at = std::find_if(look.sticks.begin(), look.sticks.end(),
                               [&](const StickSeen& s) { return s.path == path; });
  return at == look.sticks.end() ? nullptr : &*at;
}

const StickSeen* chosen_stick(const Look& look, const RegisterView& v) {
  return v.place.kind == Kind::Stick ? stick_at(look, v.place.path) : nullptr;
}

// What nobody has chosen follows what is there, but never from a stick to the tablet.
void settle_place(const Look& look, RegisterView& v) {
  LogPlace& p = v.place;
  if (p.tapped || p.kind == Kind::Stick) return;
  if (!look.sticks.empty()) {
    p = {Kind::Stick, look.sticks.front().path, false};
  } else if (!look.log_folder.empty()) {
    p = {Kind::Tablet, {}, false};
  }
}

Row stick_row(const StickSeen& s) {
  Row row{.title = s.name.empty() ? std::string("Stick without a name") : s.name, .id = s.path};
  row.second = s.free_bytes ? room_words(*s.free_bytes) : std::string("free room not known");
  row.tag = s.read_only ? "READ-ONLY" : "STICK";
  row.mark = s.read_only ? Mark::Warning : Mark::Check;
  row.tag_surface = s.read_only ? Surface::Warning : Surface::Good;
  return row;
}

struct PlaceRow {
  LogPlace place;
  Row row;
};

// Which places there are; the folder by hand comes last.
std::vector<PlaceRow> places(const Look& look, const RegisterView& v) {
  std::vector<PlaceRow> all;
  for (const StickSeen& s : look.sticks) all.push_back({{Kind::Stick, s.path, true}, stick_row(s)});
  if (!look.log_folder.empty())
    all.push_back(
        {{Kind::Tablet, {}, true},
         {.title = "On this tablet", .second = "needs no stick; Setup, About says where"}});
  all.push_back({{Kind::Hand, {}, true},
                 {.title = v.folder.empty() ? "Folder by hand" : "Folder by hand: " + v.folder,
                  .second = "tap to write where",
                  .id = "Folder by hand"}});
  for (PlaceRow& p : all) {
    p.row.chosen = p.place.kind == v.place.kind && p.place.path == v.place.path &&
                   (p.place.kind != Kind::Hand || !v.folder.empty());
  }
  return all;
}

std::string target_folder(const Look& look, const RegisterView& v) {
  switch (v.place.kind) {
    case Kind::Stick:
      return v.place.path;
    case Kind::Tablet:
      return look.log_folder;
    case Kind::Hand:
      return v.folder;
    case Kind::None:
      break;
  }
  return {};
}

// How the last log asked for stands, if that was for this place and nothing was entered since.
State state_of(const Look& look, const RegisterView& v) {
  const BundleSeen& b = look.bundle;
  if (b.state == State::Writing) return b.state;
  if (!b.folder.empty() && b.folder != target_folder(look, v)) return State::None;
  if (b.entries && *b.entries != look.farm.log.size()) return State::None;
  return b.state;
}

bool stick_is_out(const Look& look, const RegisterView& v) {
  return v.place.kind == Kind::Stick && chosen_stick(look, v) == nullptr;
}

std::string why_not_write(const Look& look, const RegisterView& v) {
  if (look.bundle.state == State::Writing) return "being written";
  if (look.farm.log.empty()) return "there are no entries yet";
  if (stick_is_out(look, v))
    return state_of(look, v) == State::Safe ? "done: pull the stick" : "the stick is out";
  const StickSeen* s = chosen_stick(look, v);
  if (s != nullptr && s->read_only) return "this stick is read-only";
  return target_folder(look, v).empty() ? "no stick is in, no folder chosen" : "";
}

// Plain words in large type: the title, what happened, what to do.
void announce(Touch& t, const Rect& rect, std::string_view title, std::string_view line,
              std::string_view more, Surface surface) {
  Rect room = panel(t, rect, surface);
  const float high = text_height(t, title, room.w, Size::Large);
  text(t, cut_top(room, std::min(high, room.h * 0.4F), t.mm(1.5F)), title, {.size = Size::Large});
  if (!more.empty()) {
    const float foot = text_height(t, more, room.w, Size::Body);
    text(t, cut_bottom(room, std::min(foot, room.h * 0.3F), t.mm(1)), more);
  }
  text(t, room, line, {.size = Size::Large, .place = Place::Top});
}

void writing(Touch& t, const Rect& rect, const BundleSeen& b, bool stick) {
  Rect room = panel(t, rect, Surface::Active);
  progress(t, cut_bottom(room, t.mm(7), t.mm(1.5F)), b.part, Surface::Active);
  text(t, room, (stick ? "Writing. Leave the stick in. " : "Writing. ") + b.line);
}

// What became of the last log that was asked for.
void outcome(Touch& t, const Rect& rect, const Look& look, const RegisterView& v) {
  const BundleSeen& b = look.bundle;
  const char* where =
      v.place.kind == Kind::Tablet ? "Written on this tablet" : "Written into the folder";
  switch (state_of(look, v)) {
    case State::Writing:
      return writing(t, rect, b, v.place.kind == Kind::Stick);
    case State::Safe:
      return announce(t, rect, b.line.empty() ? "Safe to pull" : "Written: safe to pull", b.line,
                      "", Surface::Good);
    case State::Written:
      return announce(t, rect, where, b.line, "", Surface::Good);
    case State::Held:
      return announce(t, rect, "Do not pull the stick yet", b.line, "", Surface::Warning);
    case State::Failed:
      return announce(t, rect, "Not written", b.line, "Your entries are safe on this tablet.",
                      Surface::Alarm);
    case State::None:
      break;
  }
  if (stick_is_out(look, v))
    return announce(t, rect, "The stick is out", "Put it back or choose another place.", "",
                    Surface::Warning);
  const std::string lines[] = {
      "Put a stick in, or choose a folder by hand. The log is written, "
      "read back and checked before it counts."};
  told(t, rect, "", lines);
}

void choose_days(Touch& t, Rect& room, const Look& look, RegisterView& v, engine::Date day) {
  const std::string one = day == look.today() ? "Today" : short_day(day, look.today());
  const std::string options[] = {one, "All days"};
  const Rect at = cut_top(room, choice_height(t, options, room.w), t.gap());
  if (const auto tapped = choice(t, at, options, v.all_days ? 1 : 0)) v.all_days = *tapped == 1;
}

void choose_place(Touch& t, const Rect& room, const Look& look, RegisterView& v) {
  const std::vector<PlaceRow> all = places(look, v);
  const auto tapped =
      list_rows(t, room, v.place_page, all.size(), [&](std::size_t i) { return all[i].row; });
  if (!tapped) return;
  v.place = all[*tapped].place;
  if (v.place.kind == Kind::Hand) start_words(v.typing, kFolder, v.folder.empty() ? "/" : v.folder);
}

std::vector<Act> list_of(const Look& look, const RegisterView& v) {
  const std::string obstacle = why_not_write(look, v);
  std::vector<Act> list = {{.label = "Write now",
                            .second = obstacle,
                            .enabled = obstacle.empty(),
                            .surface = Surface::Action,
                            .big = true}};
  if (chosen_stick(look, v) != nullptr)
    list.push_back(
        {.label = "Make it safe to pull", .enabled = look.bundle.state != State::Writing});
  return list;
}

}  // namespace

Ask write_page(Touch& t, Rect room, const Look& look, RegisterView& v, engine::Date day) {
  if (v.typing.field == kFolder) {
    typed_words(t, v.typing, {"Folder to write into", 60}, v.folder);
    return {};
  }
  settle_place(look, v);
  bool back = false;
  head(t, room, "Write the log", "as a folder that any computer can read", &back);
  if (back) v.writing = false;
  const auto tapped = acts(t, room, list_of(look, v));
  const WriteBundle write{target_folder(look, v),
                          v.all_days ? std::nullopt : std::optional<engine::Date>(day),
                          v.place.kind == Kind::Stick};
  const std::string stick = v.place.path;
  outcome(t, cut_bottom(room, t.mm(38), t.gap()), look, v);
  choose_days(t, room, look, v, day);
  choose_place(t, room, look, v);
  if (tapped == 0U) return write;
  if (tapped == 1U) return ReleaseStick{stick};
  return {};
}

}  // namespace ui
