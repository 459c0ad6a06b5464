#include "ui/screens/yards/colony_notes.h"

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/reasons.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

const std::string kColonyPhrases[] = {"queen seen",
                                      "eggs seen",
                                      "no brood",
                                      "spotty brood",
                                      "queen cells",
                                      "strong",
                                      "weak",
                                      "bad tempered",
                                      "stores low",
                                      "crawling bees",
                                      "deformed wings",
                                      "entrance blocked",
                                      "fed",
                                      "super added",
                                      "super taken off",
                                      "look again soon"};
const std::string kYardPhrases[] = {"gate locked",  "track muddy", "grass high",
                                    "hive fallen",  "cattle near", "neighbour told",
                                    "water is dry", "fence broken"};
const std::string kSettled[] = {"treated another way", "looked fine on a visit", "colony joined",
                                "count was low", "entered by mistake"};
const std::string kLost[] = {"died in winter",  "queenless and joined", "absconded",
                             "starved",         "robbed out",           "mites",
                             "bear or vandals", "sold or given away"};

// Phrases with one button that takes them; true when it counted.
bool say(Touch& t, Rect room, YardsView& v, std::span<const std::string> list, const Act& act,
         std::string_view title, std::string_view second, bool& back) {
  head(t, room, title, second, &back);
  Act last = act;
  last.enabled = !sentence_of(v.said, v.written).empty();
  last.big = true;
  const bool done = acts(t, room, std::span(&last, 1)).has_value();
  reasons(t, room, list, v.panel_page, v.said, v.written, v.typing);
  return done;
}

}  // namespace

Ask note_page(Touch& t, Rect room, const Look&, YardsView& v, const engine::Yard& yard,
              const engine::Colony* colony) {
  if (writing_own_words(t, v.typing, "Note in your own words", v.written)) return {};
  bool back = false;
  const std::span<const std::string> list = colony ? std::span<const std::string>(kColonyPhrases)
                                                   : std::span<const std::string>(kYardPhrases);
  const bool done = say(t, room, v, list, {.label = "Save note", .surface = Surface::Action},
                        "Note", colony ? colony->name + ", " + yard.name : yard.name, back);
  const YardsPage before = colony ? YardsPage::None : YardsPage::YardMore;
  if (back || done) v.page_of = before;
  if (!done) return {};
  engine::NoteWritten e;
  e.yard = yard.id;
  if (colony) e.colony = colony->id;
  e.text = sentence_of(v.said, v.written);
  v.said.clear();
  v.written.clear();
  return engine::Body{e};
}

Ask settle_page(Touch& t, Rect room, const Look&, YardsView& v, const engine::Colony& c) {
  if (writing_own_words(t, v.typing, "Why is no visit needed?", v.written)) return {};
  bool back = false;
  const bool done =
      say(t, room, v, kSettled, {.label = "Take off the list", .surface = Surface::Action},
          "Why is no visit needed?", c.name, back);
  if (back || done) v.page_of = YardsPage::None;
  if (!done) return {};
  return engine::Body{engine::ComeBackSettled{c.id, sentence_of(v.said, v.written)}};
}

Ask lost_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  if (writing_own_words(t, v.typing, "How was it lost?", v.written)) return {};
  bool back = false;
  const bool done =
      say(t, room, v, kLost, {.label = "Mark as lost", .surface = Surface::Warning, .hold = true},
          "How was it lost?", c.name + ", " + look.farm.yards.at(c.yard).name, back);
  if (back || done) v.page_of = YardsPage::None;
  if (!done) return {};
  v.colony.reset();
  return engine::Body{engine::ColonyLost{c.id, sentence_of(v.said, v.written)}};
}

Ask move_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  bool back = false;
  head(t, room, "Move " + c.name + " to ...", "now in " + look.farm.yards.at(c.yard).name, &back);
  if (back) v.page_of = YardsPage::None;
  std::vector<const engine::Yard*> yards = engine::yards(look.farm);
  std::erase_if(yards, [&](const engine::Yard* y) { return y->id == c.yard; });
  if (yards.empty()) {
    nothing_here(t, room, "There is no other yard.");
    return {};
  }
  std::vector<Row> rows;
  for (const engine::Yard* y : yards) {
    const std::size_t n = engine::colonies_of(look.farm, y->id).size();
    rows.push_back({.title = y->name,
                    .second = engine::counted(n, "colony", "colonies"),
                    .id = engine::text(y->id)});
  }
  const auto tapped = list_rows(t, room, v.panel_page, rows);
  if (!tapped) return {};
  v.page_of = YardsPage::None;
  v.yard = yards[*tapped]->id;
  return engine::Body{engine::ColonyMoved{c.id, yards[*tapped]->id}};
}

}  // namespace ui
