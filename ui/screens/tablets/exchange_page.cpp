// The exchange folder: what any file-moving engine, a network drive or a stick connects to other
// tablets and an office.
#include "ui/screens/tablets/exchange_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr int kExchange = 2;  // what is typed; 1 is the folder of bundles

std::vector<std::string> lines_of(const Look& look) {
  const ExchangeSeen& x = look.exchange;
  std::vector<std::string> lines;
  if (x.folder.empty())
    lines = {"No folder is watched.",
             "Choose one that other tablets or an office reach too: a stick, a network drive, a "
             "folder that a sync program keeps alike. What turns up there is taken in, and what "
             "is not there yet is put out, once a minute, never in the middle of a walk."};
  if (!x.folder.empty() && engine::walk_under_way(look.farm, look.device) != nullptr)
    lines.emplace_back("It waits until the walk has ended.");
  else if (!x.folder.empty() && x.when.empty())
    lines.emplace_back("Not looked into yet.");
  if (!x.when.empty())
    lines.push_back(fmt::format("{} {}:", x.failed ? "Failed at" : "Last changed at", x.when));
  for (const std::string& line : x.lines) lines.push_back(without_folders(line));
  return lines;
}

}  // namespace

Ask exchange_page(Touch& t, Rect room, const Look& look, TabletsView& v) {
  if (v.typing.field == kExchange) {
    std::string folder;
    if (!typed_words(t, v.typing, {"Exchange folder", 60}, folder)) return {};
    return UseExchange{folder};
  }
  const ExchangeSeen& x = look.exchange;
  bool back = false;
  head(t, room, "Exchange folder", x.folder.empty() ? "none" : x.folder, &back);
  if (back) v.exchange = false;
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  std::vector<Act> list = {{.label = "Look now",
                            .second = walking ? "end the walk first" : "",
                            .enabled = !x.folder.empty() && !walking,
                            .surface = Surface::Action,
                            .big = true},
                           {.label = "Another folder"},
                           {.label = "Watch none", .enabled = !x.folder.empty()}};
  const std::size_t sticks = std::min<std::size_t>(look.sticks.size(), 2);
  for (std::size_t i = 0; i < sticks; ++i)
    list.push_back({.label = "Use " + (look.sticks[i].name.empty() ? std::string("the stick")
                                                                   : look.sticks[i].name)});
  const auto act = acts(t, room, list);
  paragraphs(t, room, v.side_page, lines_of(look));
  if (!act) return {};
  v.side_page = 0;
  if (*act == 0) return LookIntoExchange{};
  if (*act == 2) return UseExchange{};
  if (*act > 2) return UseExchange{look.sticks[*act - 3].path};
  start_words(v.typing, kExchange, x.folder.empty() ? "/" : x.folder);
  return {};
}

}  // namespace ui
