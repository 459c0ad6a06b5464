#include "ui/screens/register/register_entry.h"

#include "engine/farm/queries.h"
#include "engine/register/day.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/reasons.h"
#include "ui/screens/register/register_correct.h"

namespace ui {

namespace {

const std::string kReasons[] = {
    "wrong colony", "tapped by mistake",         "wrong number", "did not happen", "entered twice",
    "wrong day",    "wrong vaporizer or battery"};

std::string when(const engine::Entry& e) {
  return day_words(engine::local_date(e.event.stamp)) + ", " +
         engine::clock_seconds(e.event.stamp) +
         (engine::credible(e.event.stamp) ? "" : " (clock wrong)") + ", entry " +
         engine::short_ref(e.event.ref);
}

// Taken back, corrected, or no longer fitting: each with its own cause.
std::vector<std::string> lines_of(const Look& look, const engine::Entry& e) {
  std::vector<std::string> lines = {engine::describe(e.event.body, look.farm)};
  if (e.struck) {
    const engine::EntryHandle by = engine::find_entry(look.farm, e.struck->by);
    const bool corrected =
        by != nullptr && std::holds_alternative<engine::EntryCorrected>(by->event.body);
    lines.push_back((corrected ? "Corrected on " : "Struck on ") +
                    day_words(engine::local_date(e.struck->at)) + ": " + e.struck->reason);
    if (corrected) lines.push_back("In its place: " + engine::describe(by->event.body, look.farm));
  } else if (e.fallen != engine::Refusal::None) {
    lines.push_back(
        "It no longer counts: what was struck before it, or came from another tablet, "
        "leaves no room for it. " +
        std::string(engine::sentence(e.fallen)));
  }
  return lines;
}

Rect words_room(Touch& t, Rect& room) { return cut_top(room, t.mm(34), t.gap()); }

// What facts stand on cannot be struck, but a wrong number in it can be put right.
void cannot_strike(Touch& t, Rect room, const Look& look, RegisterView& v,
                   const engine::Entry& entry, const Tried& tried) {
  std::vector<std::string> lines = lines_of(look, entry);
  if (can_correct(entry)) {
    const Act list[] = {{.label = "Correct"}};
    if (acts(t, room, list)) begin_correct(v, entry);
  }
  if (entry.fallen == engine::Refusal::None) lines.emplace_back(engine::sentence(tried.refusal));
  if (!tried.fall.empty()) lines.push_back("Striking this would also drop: " + tried.fall + ".");
  paragraphs(t, room, v.reason_page, lines);
}

// A struck or corrected entry can be made to count again, unless something else stands in the way.
Ask struck_page(Touch& t, Rect room, const Look& look, RegisterView& v,
                const engine::Entry& entry) {
  const engine::StrikeTakenBack back{entry.struck->by, "struck by mistake"};
  const Tried& tried = v.tried.of(look, back);
  const bool can = tried.refusal == engine::Refusal::None;
  const Act list[] = {{.label = "Take the strike back",
                       .second = can ? "" : "not possible any more",
                       .enabled = can,
                       .surface = Surface::Warning,
                       .hold = true}};
  std::vector<std::string> lines = lines_of(look, entry);
  if (!can) lines.emplace_back(engine::sentence(tried.refusal));
  if (!tried.fall.empty())
    lines.push_back("Taking the strike back would drop: " + tried.fall + ".");
  const bool tapped = acts(t, room, list).has_value();
  paragraphs(t, room, v.reason_page, lines);
  return tapped ? Ask{engine::Body{back}} : Ask{};
}

}  // namespace

Ask entry_page(Touch& t, Rect room, const Look& look, RegisterView& v, const engine::Entry& entry) {
  if (writing_own_words(t, v.typing, "Why is it struck?", v.own_words)) return {};
  bool back = false;
  head(t, room, "Entry", when(entry), &back);
  if (back) v.entry.reset();
  engine::EntryStruck e{entry.event.ref, sentence_of(v.said, v.own_words)};
  if (entry.struck) return struck_page(t, room, look, v, entry);
  const Tried& tried = v.tried.of(look, e);
  if (tried.refusal != engine::Refusal::None) {
    cannot_strike(t, room, look, v, entry, tried);
    return {};
  }
  std::vector<Act> list = {{.label = "Strike",
                            .second = e.reason.empty() ? "choose a reason first" : "",
                            .enabled = !e.reason.empty(),
                            .surface = Surface::Warning,
                            .hold = true,
                            .big = true}};
  if (can_correct(entry)) list.push_back({.label = "Correct"});
  const auto tapped = acts(t, room, list);
  const bool strike = tapped == 0U;
  if (tapped == 1U) begin_correct(v, entry);
  std::vector<std::string> lines = lines_of(look, entry);
  if (!tried.fall.empty()) lines.push_back("Striking this also drops: " + tried.fall + ".");
  told(t, words_room(t, room), "", lines);
  remark(t, cut_top(room, 2 * line_height(t, Size::Small) + 2, t.mm(1.5F)),
         "To take it back, choose why and hold Strike. It stays readable in the register.");
  reasons(t, room, kReasons, v.reason_page, v.said, v.own_words, v.typing);
  if (!strike) return {};
  v.said.clear();
  v.own_words.clear();
  return engine::Body{e};
}

}  // namespace ui
