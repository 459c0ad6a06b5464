#include "ui/screens/reasons.h"
#include "ui/screens/register_parts.h"

namespace ui {

namespace {

const std::string kReasons[] = {
    "wrong colony", "tapped by mistake",         "wrong number", "did not happen", "entered twice",
    "wrong day",    "wrong vaporizer or battery"};

std::string when(const engine::Entry& e) {
  return day_words(engine::local_date(e.event.stamp)) + ", " +
         engine::clock_seconds(e.event.stamp) + ", entry " + engine::short_ref(e.event.ref);
}

std::vector<std::string> lines_of(const Look& look, const engine::Entry& e) {
  std::vector<std::string> lines = {engine::describe(e.event.body, look.farm)};
  if (e.struck) {
    lines.push_back("Struck on " + day_words(engine::local_date(e.struck->at)) + ": " +
                    e.struck->reason);
  } else if (e.fallen != engine::Refusal::None) {
    lines.push_back("It no longer counts, because an entry it stood on was struck. " +
                    std::string(engine::sentence(e.fallen)));
  }
  return lines;
}

Rect words_room(Touch& t, Rect& room) { return cut_top(room, t.mm(34), t.gap()); }

}  // namespace

Ask entry_page(Touch& t, Rect room, const Look& look, RegisterView& v, const engine::Entry& entry) {
  if (writing_own_words(t, v.typing, "Why is it struck?", v.own_words)) return {};
  bool back = false;
  head(t, room, "Entry", when(entry), &back);
  if (back) v.entry.reset();
  engine::EntryStruck e{entry.event.ref, sentence_of(v.said, v.own_words)};
  const engine::Refusal refusal = why_not(look, e);
  if (refusal != engine::Refusal::None) {
    paragraphs(t, room, v.reason_page, lines_of(look, entry));
    return {};
  }
  const Act list[] = {{.label = "Strike",
                       .second = e.reason.empty() ? "choose a reason first" : "",
                       .enabled = !e.reason.empty(),
                       .surface = Surface::Warning,
                       .hold = true,
                       .big = true}};
  const bool strike = acts(t, room, list).has_value();
  told(t, words_room(t, room), "", lines_of(look, entry));
  remark(t, cut_top(room, 2 * line_height(t, Size::Small) + 2, t.mm(1.5F)),
         "To take it back, choose why and hold Strike. It stays readable in the register.");
  reasons(t, room, kReasons, v.reason_page, v.said, v.own_words, v.typing);
  if (!strike) return {};
  v.said.clear();
  v.own_words.clear();
  return engine::Body{e};
}

}  // namespace ui
