// No walk under way and no yard chosen: which yard? What is due comes first.
#include "ui/screens/walk/open/walk_yards.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/rounds/due.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

using engine::tr;
using engine::tr_many;
namespace {

struct YardDue {
  const engine::Yard* yard = nullptr;
  const engine::DueRound* round = nullptr;
  std::size_t colonies = 0;
  std::size_t come_backs = 0;
  [[nodiscard]] int urgency() const { return round ? 2 : come_backs > 0 ? 1 : 0; }
};

std::vector<YardDue> yards_due(const Look& look, const engine::Due& due) {
  std::vector<YardDue> list;
  for (const engine::Yard* yard : engine::yards(look.farm)) {
    YardDue y{yard, nullptr, engine::colonies_to_treat(look.farm, yard->id).size(), 0};
    for (const engine::DueRound& r : due.rounds)
      if (r.yard == yard->id && y.round == nullptr) y.round = &r;
    y.come_backs = static_cast<std::size_t>(
        std::count_if(due.come_backs.begin(), due.come_backs.end(),
                      [&](const engine::ComeBack& c) { return c.yard == yard->id; }));
    list.push_back(y);
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const YardDue& a, const YardDue& b) { return a.urgency() > b.urgency(); });
  return list;
}

std::string due_words(const engine::DueRound& r) {
  if (r.days_over == 0) return tr("due today");
  if (r.days_over < 0) return tr("due {}", engine::iso_date(r.planned));
  return tr_many("{} day over", "{} days over", static_cast<std::size_t>(r.days_over));
}

Row row_of(const YardDue& y) {
  Row row{.title = y.yard->name,
          .second = tr_many("{} colony", "{} colonies", y.colonies),
          .enabled = y.colonies > 0};
  if (y.round) {
    row.second += tr(", round {} of {}", y.round->number, y.round->of);
    row.tag = due_words(*y.round);
    row.mark = Mark::Clock;
    row.tag_surface = Surface::Warning;
  }
  if (y.come_backs > 0) {
    row.second += tr(", {} to come back to", y.come_backs);
    if (!y.round) row.tag = tr("come back"), row.mark = Mark::Return;
  }
  return row;
}

}  // namespace

Ask walk_yards(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Which yard?"));
  const DialogButton buttons[] = {{tr("Go to Yards")}};
  const bool to_yards = walk_footer(t, page.footer, view, buttons).has_value();
  if (to_yards) return ToScreen{ScreenName::Yards};
  const engine::Due& due = look.answers.season.due(look.farm, look.today());
  const std::vector<YardDue> list = yards_due(look, due);
  if (list.empty()) {
    notice(t, page.room, tr("There is no yard yet. Add one in Yards, or read a spreadsheet."),
           Mark::Dot, Surface::Panel);
    return {};
  }
  std::vector<Row> lines;
  for (const YardDue& y : list) lines.push_back(row_of(y));
  if (const auto tapped = list_rows(t, page.room, view.opening.list_page, lines)) {
    view.opening.yard = list[*tapped].yard->id;
    view.opening.only.clear();
    view.opening.course.reset();
    if (list[*tapped].round) view.opening.course = list[*tapped].round->course;
  }
  return {};
}

}  // namespace ui
