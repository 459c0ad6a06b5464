// What another tablet has set for the outfit (label, thresholds, care of kit), beside what is set
// here: nothing of it holds on this tablet until its keeper says so.
#include "ui/screens/tablets/tablets_offer.h"

#include <fmt/format.h>

#include "engine/farm/setups.h"
#include "engine/words/offer_words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr std::size_t kUse = 0, kKeep = 1, kUseAll = 2;

// Whether nothing was ever set on this tablet: its keeper may want all that another one has.
bool is_new(const Look& look) { return !look.farm.setups.contains(look.device); }

std::vector<Act> acts_of(const Look& look, const engine::Offer& offer) {
  const bool dose = offer.change.rules.has_value();
  std::vector<Act> list = {{.label = "Use it here too",
                            .second = dose ? "check your label" : "",
                            .surface = Surface::Action,
                            .hold = true,
                            .big = true},
                           {.label = "Keep ours", .second = "not asked again"}};
  if (is_new(look))
    list.push_back(
        {.label = "Use all its settings", .second = "its name, units and home too", .hold = true});
  return list;
}

engine::Body answer(const Look& look, const engine::Offer& offer, std::size_t tapped) {
  if (tapped == kKeep) return engine::SetupKept{offer.entries};
  if (tapped == kUseAll)
    if (const auto all = engine::all_of(engine::setup_of(look.farm, offer.tablet), look.farm.setup))
      return *all;
  return offer.change;
}

}  // namespace

Row offer_row(const Look& look, const engine::Offer& offer) {
  const char* what = !offer.change.rules     ? "other settings"
                     : look.farm.setup.rules ? "another label"
                                             : "a label";
  return {.title = fmt::format("Tablet {} has {}", engine::short_device(offer.tablet), what),
          .second = "use it here too?",
          .tag = "LOOK AT IT",
          .mark = Mark::Warning,
          .tag_surface = Surface::Warning,
          .id = "offer of " + engine::short_ref(offer.entries.front())};
}

Ask offer_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Offer& offer) {
  bool back = false;
  head(t, room, "Use it here too?",
       "Set on tablet " + engine::short_device(offer.tablet) + ", not on this one", &back);
  const auto tapped = acts(t, room, acts_of(look, offer));
  paragraphs(t, room, v.side_page, engine::differences(offer, look.farm));
  if (back || tapped) v.offer.reset();
  return tapped ? Ask{answer(look, offer, *tapped)} : Ask{};
}

}  // namespace ui
