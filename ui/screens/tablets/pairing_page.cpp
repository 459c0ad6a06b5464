// Whose entries count: this tablet's words and code for others to type and scan, the words of
// others, and what is held back of tablets that nobody paired.
#include "ui/screens/tablets/pairing_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/touch/code.h"

namespace ui {

namespace {

constexpr int kTheirWords = 3;  // what is typed; 1 and 2 are folders
constexpr std::size_t kTakeIn = 0, kKeepOut = 1;

std::vector<std::string> pairing_lines(const TrustSeen& trust) {
  return {"This tablet's words: " + trust.words + ".",
          "Pair both ways: type these words on the other tablet, or scan the code there; then type "
          "the other tablet's words here.",
          trust.closed ? "Only known and paired tablets count. What others bring is kept and held "
                         "back until you decide."
                       : "Never paired: whatever a stick or the exchange folder brings counts."};
}

std::vector<std::string> held_lines(const HeldSeen& held) {
  std::vector<std::string> lines = held.would_do;
  if (lines.empty()) lines.emplace_back("Nothing that this version can read.");
  lines.push_back(fmt::format("{}, from number {} on; none of it counts ({}).",
                              engine::counted(held.entries, "entry", "entries"), held.from,
                              held.why));
  return lines;
}

}  // namespace

Row held_row(const HeldSeen& held) {
  return {.title = fmt::format("Tablet {} is held back: {}", held.shown,
                               held.would_do.empty() ? held.why : held.would_do.front()),
          .second = held.why,
          .tag = held.refused ? "KEPT OUT" : "DECIDE",
          .mark = Mark::Warning,
          .tag_surface = Surface::Warning,
          .id = "held " + held.shown};
}

Ask held_page(Touch& t, Rect room, const Look&, TabletsView& v, const HeldSeen& held) {
  bool back = false;
  head(t, room, "Take it in?", fmt::format("Tablet {}: {}", held.shown, held.why), &back);
  const std::vector<Act> list = {{.label = "Take in",
                                  .second = "what is here now",
                                  .surface = Surface::Action,
                                  .hold = true,
                                  .big = true},
                                 {.label = "Keep out",
                                  .second = held.refused ? "kept out" : "not asked again",
                                  .enabled = !held.refused,
                                  .hold = true},
                                 {.label = "Later"}};
  const auto tapped = acts(t, room, list);
  paragraphs(t, room, v.side_page, held_lines(held));
  if (back || tapped) v.held.clear();
  if (tapped == kTakeIn) return engine::TabletTrusted{{}, held.tablet, held.last, {}};
  if (tapped == kKeepOut) return engine::TabletRefused{held.tablet, held.from, held.key};
  return {};
}

Ask pairing_page(Touch& t, Rect room, const Look& look, TabletsView& v) {
  if (v.typing.field == kTheirWords) {
    std::string words;
    if (!typed_words(t, v.typing, {"Their eight words", 90}, words)) return {};
    return PairWith{words};
  }
  bool back = false;
  head(t, room, "Pair tablets", look.trust.closed ? "paired" : "never paired", &back);
  if (back) v.pairing = false;
  const std::vector<Act> list = {
      {.label = "Type their words", .surface = Surface::Action, .big = true}};
  const auto tapped = acts(t, room, list);
  const float side = std::min(room.w, room.h) * 0.5F;
  code(t, room.w > room.h ? cut_right(room, side, t.gap()) : cut_bottom(room, side, t.gap()),
       look.trust.code);
  paragraphs(t, room, v.side_page, pairing_lines(look.trust));
  if (tapped) start_words(v.typing, kTheirWords);
  return look.trust.words.empty() ? Ask{ShowWords{}} : Ask{};
}

}  // namespace ui
