// Other tablets: takes in their bundles from a stick or folder, says what came of it, and lets the
// keeper settle what contradicts. No side is ever dropped.
#include "ui/screens/tablets/tablets_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/forks.h"
#include "engine/farm/queries.h"
#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/reasons.h"
#include "ui/screens/tablets/exchange_page.h"
#include "ui/screens/tablets/pairing_page.h"
#include "ui/screens/tablets/tablets_fork.h"
#include "ui/screens/tablets/tablets_join.h"
#include "ui/screens/tablets/tablets_offer.h"

namespace ui {

namespace {

constexpr int kFolder = 1;
const std::string kDecisions[] = {"both happened",
                                  "the first one is right",
                                  "the last one is right",
                                  "one thing, entered twice",
                                  "two colonies of one name",
                                  "asked the other keeper"};

const char* what_words(engine::Contradiction what) {
  switch (what) {
    case engine::Contradiction::DoesNotFit:
      return "Does not fit, does not count";
    case engine::Contradiction::TreatedTwice:
      return "Vapor twice on one day";
    case engine::Contradiction::NamedTwice:
      return "One name twice";
    case engine::Contradiction::CorrectedTwice:
      return "Corrected twice; the first holds";
    case engine::Contradiction::Forked:
      return "Written on in copies";
    case engine::Contradiction::StruckUnread:
      return "Struck unread; does not take effect";
    case engine::Contradiction::SaidTwice:
      return "Entered twice; the first holds";
  }
  return "";
}

std::string side_words(const Look& look, const engine::EntryRef& ref) {
  const engine::EntryHandle e = engine::find_entry(look.farm, ref);
  if (e == nullptr) return "entry " + engine::short_ref(ref);
  const bool own = ref.device == look.device;
  return fmt::format(
      "{} ({} {}, {} tablet {}, entry {})", engine::describe(e->event.body, look.farm),
      day_words(engine::local_date(e->event.stamp)), engine::clock_time(e->event.stamp),
      own ? "this" : "other", engine::short_device(ref.device), engine::short_ref(ref));
}

// ---- one contradiction, with all its sides ----

std::vector<std::string> lines_of(const Look& look, const engine::Contradicted& c) {
  std::vector<std::string> lines;
  for (const engine::EntryRef& ref : c.sides) lines.push_back(side_words(look, ref));
  if (c.what == engine::Contradiction::DoesNotFit)
    if (const engine::EntryHandle e = engine::find_entry(look.farm, c.sides.front()))
      lines.emplace_back(engine::sentence(e->fallen));
  return lines;
}

constexpr std::size_t kSidesToOpen = 4;  // with a button of their own

std::vector<Act> acts_of(const engine::Contradicted& c, bool fine, bool joinable) {
  std::vector<Act> list = {{.label = "Settle it",
                            .second = fine ? "" : "choose what holds first",
                            .enabled = fine,
                            .surface = Surface::Action,
                            .big = true}};
  for (std::size_t i = 0; i < c.sides.size() && i < kSidesToOpen; ++i)
    list.push_back(
        {.label = "Open " + engine::short_ref(c.sides[i]), .second = "to strike or correct it"});
  if (joinable) list.push_back({.label = "They are one", .second = "look at what is joined"});
  return list;
}

Ask settle(Touch& t, Rect room, const Look& look, RegisterView& book,
           const engine::Contradicted& c) {
  TabletsView& v = book.tablets;
  if (writing_own_words(t, v.typing, "What holds?", v.own_words)) return {};
  bool back = false;
  head(t, room, "What holds?", what_words(c.what), &back);
  const engine::Body body = engine::ContradictionSettled{c.sides, sentence_of(v.said, v.own_words)};
  const bool fine = why_not(look, body) == engine::Refusal::None;
  const std::size_t opened = std::min(c.sides.size(), kSidesToOpen);
  const auto tapped = acts(t, room, acts_of(c, fine, !engine::joins_of(look.farm, c).empty()));
  paragraphs(t, cut_top(room, room.h * 0.5F, t.gap()), v.side_page, lines_of(look, c));
  reasons(t, room, kDecisions, v.page, v.said, v.own_words, v.typing);
  const bool join = tapped && *tapped > opened;
  if (join) v.join = true, v.side_page = 0;
  if (back || tapped == 0U) v.open.reset();
  if (tapped && *tapped > 0 && !join) open_entry(book, c.sides[*tapped - 1]);
  return tapped == 0U ? Ask{body} : Ask{};
}

void open_sides(const Look& look, TabletsView& v, const engine::Contradicted& c) {
  v.open = c.sides;
  v.join = false;
  if (c.what == engine::Contradiction::Forked) count_sides(look, v, c);
  v.said.clear();
  v.own_words.clear();
  v.page = v.side_page = 0;
}

// ---- what came of taking in ----

void report_page(Touch& t, Rect room, const Look& look, TabletsView& v) {
  bool back = false;
  head(t, room, taken_in_title(look.taken_in), look.taken_in.folder, &back);
  if (back) v.report = false;
  paragraphs(t, room, v.side_page, taken_in_lines(look.taken_in));
}

// ---- the list ----

std::string why_not_take_in(const Look& look) {
  return engine::walk_under_way(look.farm, look.device) ? "end the walk first" : "";
}

std::vector<Act> list_of(const Look& look) {
  const std::string obstacle = why_not_take_in(look);
  std::vector<Act> list;
  for (std::size_t i = 0; i < look.sticks.size() && i < 2; ++i)
    list.push_back(
        {.label = "Take in from " +
                  (look.sticks[i].name.empty() ? std::string("the stick") : look.sticks[i].name),
         .second = obstacle,
         .enabled = obstacle.empty(),
         .surface = Surface::Action,
         .big = i == 0});
  list.push_back({.label = "Another folder",
                  .second = !obstacle.empty()     ? obstacle
                            : look.sticks.empty() ? "or put a stick in"
                                                  : "",
                  .enabled = obstacle.empty()});
  list.push_back(
      {.label = "What came in", .enabled = !look.taken_in.folder.empty() && !look.taken_in.copy});
  list.push_back({.label = "Exchange folder",
                  .second = look.exchange.folder.empty() ? "none"
                            : look.exchange.failed       ? "trouble"
                                                         : "watched"});
  list.push_back({.label = "Pair tablets", .second = look.trust.closed ? "" : "never paired"});
  return list;
}

std::string title_of(const Look& look, const engine::Contradicted& c) {
  const engine::EntryHandle first = engine::find_entry(look.farm, c.sides.front());
  const engine::Branch* side = engine::find_branch(look.farm.branches, c.sides.front().device);
  const std::string what = what_words(c.what);
  if (c.what == engine::Contradiction::Forked)
    return what + ": tablet " + engine::short_device(side->device);
  return first == nullptr ? what : what + ": " + engine::describe(first->event.body, look.farm);
}

Row row_of(const Look& look, const engine::Contradicted& c) {
  return {.title = title_of(look, c),
          .tag = "SETTLE IT",
          .mark = Mark::Warning,
          .tag_surface = Surface::Warning,
          .id = engine::short_ref(c.sides.front())};
}

// What is held back and not decided yet, what others have set, what contradicts, what is kept out.
std::vector<const HeldSeen*> held_of(const Look& look, bool refused) {
  std::vector<const HeldSeen*> some;
  for (const HeldSeen& held : look.trust.held)
    if (held.refused == refused) some.push_back(&held);
  return some;
}

void decide_rows(Touch& t, const Rect& room, const Look& look, TabletsView& v,
                 const std::vector<engine::Contradicted>& all) {
  const auto& offers = look.answers.offers(look.farm);
  const auto held = held_of(look, false), out = held_of(look, true);
  const std::size_t first_offer = held.size(), first_of_all = first_offer + offers.size(),
                    first_out = first_of_all + all.size();
  if (first_out + out.size() == 0) {
    nothing_here(t, room, "Nothing contradicts. Take in what other tablets wrote to their sticks.");
    return;
  }
  const auto tapped = list_rows(t, room, v.page, first_out + out.size(), [&](std::size_t i) {
    Row row = i < first_offer    ? held_row(*held[i])
              : i < first_of_all ? offer_row(look, offers[i - first_offer])
              : i < first_out    ? row_of(look, all[i - first_of_all])
                                 : held_row(*out[i - first_out]);
    fit_row(t, row, room.w);
    return row;
  });
  if (!tapped) return;
  v.side_page = 0;
  if (*tapped < first_offer)
    v.held = held[*tapped]->tablet;
  else if (*tapped < first_of_all)
    v.offer = offers[*tapped - first_offer].entries.front();
  else if (*tapped < first_out)
    open_sides(look, v, all[*tapped - first_of_all]);
  else
    v.held = out[*tapped - first_out]->tablet;
}

Ask list_page(Touch& t, Rect room, const Look& look, RegisterView& book) {
  TabletsView& v = book.tablets;
  const auto& all = look.answers.contradictions(look.farm);
  bool back = false;
  head(t, room, "Other tablets",
       fmt::format("{}; {} to settle",
                   engine::counted(engine::tablets(look.farm), "tablet", "tablets"),
                   engine::counted(all.size(), "contradiction", "contradictions")),
       &back);
  if (back) book.page_of = BookPage::Day;
  const auto list = list_of(look);
  const auto act = acts(t, room, list);
  decide_rows(t, room, look, v, all);
  if (!act) return {};
  const std::size_t sticks = std::min<std::size_t>(look.sticks.size(), 2);
  v.side_page = 0;
  if (*act == sticks) start_words(v.typing, kFolder, v.folder.empty() ? "/" : v.folder);
  if (*act >= sticks) {
    v.report = *act == sticks + 1;
    v.exchange = *act == sticks + 2;
    v.pairing = *act == sticks + 3;
    return {};
  }
  v.report = true;
  return TakeIn{look.sticks[*act].path};
}

}  // namespace

std::string taken_in_title(const TakenIn& in) {
  if (in.reading) return in.copy ? "Reading the backup" : "Reading the bundles";
  return in.failed ? "Nothing was taken in" : "Taken in";
}

std::vector<std::string> taken_in_lines(const TakenIn& in) {
  if (in.reading)
    return {"The screens go on meanwhile. What is read is taken in when all of it is here.",
            "If this takes long, the stick or the folder does not answer: try another one."};
  std::vector<std::string> lines;
  if (!in.failed && !in.copy)
    lines.push_back(fmt::format("{} found, {} whole.",
                                engine::counted(in.bundles, "bundle", "bundles"), in.whole));
  if (!in.failed)
    lines.push_back(fmt::format(
        "{} taken in, {} were here already.",
        engine::counted(static_cast<std::size_t>(in.added), "entry", "entries"), in.known));
  for (const std::string& line : in.lines) lines.push_back(without_folders(line));
  if (!in.failed && in.lines.empty()) lines.emplace_back("Nothing is missing or broken.");
  return lines;
}

Ask tablets_page(Touch& t, Rect room, const Look& look, RegisterView& book) {
  TabletsView& v = book.tablets;
  if (v.exchange) return exchange_page(t, room, look, v);
  if (v.pairing) return pairing_page(t, room, look, v);
  for (const HeldSeen& held : look.trust.held)
    if (held.tablet == v.held) return held_page(t, room, look, v, held);
  if (v.typing.field == kFolder) {
    if (!typed_words(t, v.typing, {"Folder with bundles", 60}, v.folder)) return {};
    v.report = true;
    return TakeIn{v.folder};
  }
  if (v.offer)
    for (const engine::Offer& offer : look.answers.offers(look.farm))
      if (offer.entries.front() == *v.offer) return offer_page(t, room, look, v, offer);
  if (v.open)
    for (const engine::Contradicted& c : look.answers.contradictions(look.farm))
      if (c.sides == *v.open)
        return c.what == engine::Contradiction::Forked ? fork_page(t, room, look, v, c)
               : v.join                                ? join_page(t, room, look, v, c)
                                                       : settle(t, room, look, book, c);
  if (v.report && !look.taken_in.folder.empty() && !look.taken_in.copy) {
    report_page(t, room, look, v);
    return {};
  }
  return list_page(t, room, look, book);
}

}  // namespace ui
