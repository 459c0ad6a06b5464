#include "tests/support/scenes.h"

#include <array>

#include "ui/touch/icons.h"

namespace test {

namespace {

using std::chrono::seconds;
using ui::Mark;
using ui::Rect;
using ui::Surface;
using ui::Touch;

const std::vector<std::string> kNames = {"Today", "Yards", "Walk", "Kit", "Register", "Setup"};

Rect with_bar(Touch& t, int current) {
  Rect page = ui::inset(t.screen(), t.gap());
  const Rect bar = ui::cut_bottom(page, ui::nav_height(t, kNames, page.w), t.gap());
  (void)ui::nav_bar(t, bar, kNames, current);
  return page;
}

void countdowns(Touch& t, const Rect& rect, bool alarm) {
  const auto cells = t.portrait() ? ui::columns(rect, 3, t.gap()) : ui::rows(rect, 3, t.gap());
  ui::countdown(t, cells[0], {"Vapor B3", seconds{72}, seconds{150}, seconds{30}});
  ui::countdown(t, cells[1],
                {"Cloth 1 on B2", seconds{alarm ? -9 : 318}, seconds{600}, seconds{60}});
  ui::countdown(t, cells[2],
                {"Cloth 2 on B1", seconds{alarm ? -75 : 121}, seconds{600}, seconds{60}});
}

void walk(Touch& t, bool alarm) {
  Rect page = with_bar(t, 2);
  if (alarm) ui::flash_bar(t, ui::cut_top(page, t.mm(13), t.gap()), "Cloth 2 on B1 is over");
  Rect timers = t.portrait() ? ui::cut_top(page, t.mm(40), t.gap())
                             : ui::cut_right(page, page.w * 0.34F, t.gap());
  countdowns(t, timers, alarm);
  const Rect sentence = ui::cut_top(page, t.mm(15), t.mm(1));
  ui::text(t, sentence, "B4: 2 g, set in the entrance", {.size = ui::Size::Huge});
  ui::remark(t, ui::cut_top(page, t.mm(6), t.gap()), "then B5, then lift cloth 2 from B1");
  const auto trouble = ui::columns(ui::cut_bottom(page, t.least_h(), t.gap()), 4, t.gap());
  (void)ui::button(t, trouble[0], "Pass over");
  (void)ui::button(t, trouble[1], "Bees flying");
  (void)ui::button(t, trouble[2], "Mishap", {.mark = Mark::Warning});
  (void)ui::button(t, trouble[3], "Strike last", {.enabled = false});
  (void)ui::action_button(t, page, "SET IN B4", "2 g oxalic acid dihydrate, two brood boxes");
}

void walk_calm(Touch& t) { walk(t, false); }
void walk_alarm(Touch& t) { walk(t, true); }

void yard_map(Touch& t, int n, int per_row) {
  const Rect page = with_bar(t, 1);
  int shown_page = 0;
  (void)ui::map(t, page, shown_page, sample_yard(n, per_row));
}

void small_map(Touch& t) { yard_map(t, 12, 4); }
void large_map(Touch& t) { yard_map(t, 40, 10); }

void list(Touch& t) {
  Rect page = with_bar(t, 4);
  ui::heading(t, ui::cut_top(page, t.mm(10), t.mm(1)), "Friday 14 August, Alder Bend");
  const std::vector<ui::Row> rows = {
      {"B1", "2 g, covered 10:20 with cloth 2", "done", Mark::Check, Surface::Good},
      {"B2", "1 g, bees flying heavily", "come back", Mark::Return, Surface::Warning},
      {"B3", "no vapor", "passed over: aggressive", Mark::Cross, Surface::Muted},
      {"B4", "under vapor since 19:44", "vapor", Mark::Vapor, Surface::Active, true},
      {"B5", "cloth 1, 4 of 10 minutes", "covered", Mark::Cloth, Surface::Waiting},
      {"B6", "", "to do", Mark::Open, Surface::Panel},
      {"B7", "seal leaking, noted 19:51", "mishap", Mark::Warning, Surface::Alarm},
      {"B8", "", "", Mark::None, Surface::Panel, false, false},
      {"B9"},
      {"B10"},
      {"B11"},
      {"B12"},
      {"B13"}};
  int shown_page = 0;
  (void)ui::list_rows(t, page, shown_page, rows);
}

void shown_list(Touch& t) {
  const Rect page = with_bar(t, 4);
  const std::vector<ui::Row> rows = {
      {"Eyes", "Rinse with water for 15 minutes. See a doctor."},
      {"Skin", "Wash with plenty of water."},
      {"Breathing", "To fresh air. Half upright. See a doctor.", "keep", Mark::Dot}};
  int shown_page = 0;
  (void)ui::list_rows(t, page, shown_page, rows, ui::RowKind::Shown);
}

void keypad(Touch& t) {
  ui::NumberAsk ask{"Grams left in the tin", "g", 0, 500, 1, {}};
  ask.presets = {{"100 g", 100}, {"250 g", 250}, {"350 g", 350}};
  ui::NumberEntry entry{"912.5"};
  (void)ui::keypad(t, ui::dialog_panel(t, "Acid lot 24-117"), ask, entry);
}

void letters(Touch& t) {
  ui::TextEntry entry{"Queen seen", ui::Keys::Lower};
  (void)ui::letters(t, ui::inset(t.screen(), t.mm(4)), {"Note on B4"}, entry);
}

void phrases(Touch& t) {
  const Rect room = ui::dialog_panel(t, "Note on B4");
  std::vector<ui::Phrase> list;
  for (const char* words : {"queenless?", "seal leaking", "cloth torn", "wax moth", "robbing",
                            "entrance low", "lid loose", "ants", "very strong", "weak",
                            "no brood seen", "drone brood", "spotty brood", "mites on bees"}) {
    list.push_back({words, list.size() == 1 || list.size() == 4});
  }
  int shown_page = 0;
  (void)ui::phrases(t, room, shown_page, list);
}

void gate(Touch& t) {
  Rect page = ui::dialog_panel(t, "Before the first vapor");
  const Rect go = ui::cut_bottom(page, t.mm(24), t.gap());
  const auto rows = ui::rows(page, 5, t.gap());
  (void)ui::check_row(t, rows[0], "Respirator fitted", true, "cartridge as the label asks");
  (void)ui::check_row(t, rows[1], "Eye protection", true);
  (void)ui::check_row(t, rows[2], "Gloves", true);
  (void)ui::check_row(t, rows[3], "Rinse water at hand", false, "for eyes and skin");
  (void)ui::check_row(t, rows[4], "Nobody downwind", false);
  (void)ui::action_button(t, go, "START THE WALK", "two more to check", false);
}

void question(Touch& t) {
  const std::array<ui::DialogButton, 3> buttons = {
      {{"BACK"}, {"Measure again"}, {"Dose 5 g", Surface::Warning, true}}};
  (void)ui::dialog(t, "5 g is over the label",
                   "The label profile allows at most 4 g for this colony. Check your label. What "
                   "you do is recorded as over the label.",
                   buttons);
}

void setup(Touch& t) {
  Rect page = with_bar(t, 5);
  const std::vector<std::string> units = {"grams", "ounces"};
  const std::vector<std::string> flight = {"none", "some", "heavy"};
  ui::heading(t, ui::cut_top(page, t.mm(9)), "Setup");
  (void)ui::choice(t, ui::cut_top(page, t.least_h(), t.gap()), units, 0);
  (void)ui::choice(t, ui::cut_top(page, t.least_h(), t.gap()), flight, 2);
  (void)ui::stepper(t, ui::cut_top(page, t.least_h(), t.gap()), "Brood boxes", "2", true, false);
  Rect strip = ui::cut_top(page, t.mm(17), t.gap());
  const auto holds = ui::columns(strip, 2, t.gap());
  (void)ui::hold_button(t, holds[0], "Strike the entry", {.surface = Surface::Warning});
  (void)ui::button(t, holds[1], "Write the bundle", {.enabled = false, .second = "no stick found"});
  Rect facts = ui::panel(t, page);
  ui::fact(t, ui::cut_top(facts, t.mm(7)), "Battery A", "11 of about 30 colonies");
  Rect tags = ui::cut_top(facts, t.mm(8));
  const Rect one = ui::tag(t, tags, "ready", Mark::Check, Surface::Good);
  (void)ui::cut_left(tags, one.w, t.mm(2));
  (void)ui::tag(t, tags, "charge soon", Mark::Warning, Surface::Warning);
}

// Every icon at 8 mm, with the name of its file.
void icons(Touch& t) {
  const std::vector<Rect> cells = ui::grid(ui::inset(t.screen(), t.gap()), 6, 5, t.mm(2));
  for (std::size_t i = 1; i < ui::kIcons; ++i) {
    Rect cell = cells[i - 1];
    t.fill(cell, Surface::Button, t.mm(0.3F));
    const Rect under = ui::cut_bottom(cell, t.mm(6));
    const auto icon = static_cast<ui::Icon>(i);
    ui::draw_icon(t.draw(), icon, {cell.x, cell.mid_y() - t.mm(4), cell.w, t.mm(8)},
                  t.theme()[Surface::Button].ink);
    ui::text(t, under, ui::name(icon), {.size = ui::Size::Small, .align = ui::Align::Center});
  }
}

}  // namespace

std::vector<ui::Tile> sample_yard(int n, int per_row) {
  struct State {
    const char* word;
    Mark mark;
    Surface surface;
  };
  const std::array<State, 6> states = {{{"done", Mark::Check, Surface::Good},
                                        {"4:10", Mark::Cloth, Surface::Waiting},
                                        {"vapor", Mark::Vapor, Surface::Active},
                                        {"to do", Mark::Open, Surface::Button},
                                        {"passed", Mark::Cross, Surface::Muted},
                                        {"back", Mark::Return, Surface::Warning}}};
  std::vector<ui::Tile> tiles;
  for (int i = 0; i < n; ++i) {
    const State& s = states[static_cast<std::size_t>(i * 7 % 6)];
    const float wobble = 0.15F * static_cast<float>(i * 5 % 3);
    tiles.push_back({"B" + std::to_string(i + 1), static_cast<float>(i % per_row) * 2 + wobble,
                     static_cast<float>(i / per_row) * 3 + wobble, s.word, s.mark, s.surface,
                     i == 3, true});
  }
  return tiles;
}

const std::vector<Scene>& scenes() {
  static const std::vector<Scene> all = [] {
    std::vector<Scene> made = {{"walk", walk_calm},  {"alarm", walk_alarm},  {"map12", small_map},
                               {"map40", large_map}, {"list", list},         {"shown", shown_list},
                               {"keypad", keypad},   {"letters", letters},   {"phrases", phrases},
                               {"gate", gate},       {"question", question}, {"setup", setup},
                               {"icons", icons}};
    made.insert(made.end(), plot_scenes().begin(), plot_scenes().end());
    return made;
  }();
  return all;
}

}  // namespace test
