#include "ui/screens/shell/go_to.h"

#include <variant>

#include "ui/screens/base/layout.h"
#include "ui/screens/words/count_words.h"

namespace ui {
namespace {

KitSection section_of(std::optional<engine::KitSort> sort) {
  if (!sort) return KitSection::Acid;
  switch (*sort) {
    case engine::KitSort::Vaporizer:
      return KitSection::Vaporizers;
    case engine::KitSort::Cloth:
      return KitSection::Cloths;
    case engine::KitSort::Battery:
      return KitSection::Batteries;
    case engine::KitSort::Respirator:
      return KitSection::Respirator;
  }
  return KitSection::Vaporizers;
}

// One overload for each way; a new one does not compile until it has its own.
struct Way {
  Views& views;

  void operator()(const ToScreen& to) const {
    if (to.afresh) first_page(to.screen);
    views.screen = to.screen;
  }
  void operator()(const ToOpening& to) const {
    views.walk = {};
    views.walk.opening.yard = to.yard;
    views.walk.opening.course = to.course;
    views.walk.opening.only = to.only;
    views.screen = ScreenName::Walk;
  }
  void operator()(const ToYard& to) const {
    views.yards = {};
    views.yards.yard = to.yard;
    views.yards.colony = to.colony;
    views.screen = ScreenName::Yards;
  }
  void operator()(const ToNewYard&) const {
    views.yards = {};
    views.yards.page_of = YardsPage::AddYard;
    start_words(views.yards.typing, 0);
    views.screen = ScreenName::Yards;
  }
  void operator()(const ToCounts& to) const {
    views.counts = {};
    views.counts.yard = to.yard;
    if (to.samples) ask_for_samples(views.counts);
    views.screen = ScreenName::Counts;
  }
  void operator()(const ToPlanning& to) const {
    views.courses = {};
    views.courses.wanted = {to.yard};
    views.courses.page_of = CoursesPage::Plan;
    views.screen = ScreenName::Courses;
  }
  void operator()(const ToLabels&) const {
    views.setup = {};
    views.setup.section = SetupSection::Label;
    views.screen = ScreenName::Setup;
  }
  void operator()(const ToKit& to) const {
    views.kit = {};
    views.kit.section = static_cast<int>(section_of(to.sort));
    views.screen = ScreenName::Kit;
  }
  void operator()(const ToOperator&) const {
    views.setup = {};
    views.setup.section = SetupSection::Operator;
    views.screen = ScreenName::Setup;
  }
  void operator()(const ToPackList&) const {
    views.kit = {};
    views.kit.section = static_cast<int>(KitSection::Pack);
    views.screen = ScreenName::Kit;
  }
  void operator()(const ToLogWriting&) const {
    views.book = {};
    views.book.writing = true;
    views.screen = ScreenName::Register;
  }
  void operator()(const ToLotColonies& to) const {
    views.book = {};
    views.book.page_of = BookPage::LotColonies;
    views.book.find.query.lot = engine::LotWanted{to.lot, to.code};
    views.screen = ScreenName::Register;
  }
  void operator()(const ToTablets&) const {
    views.book.page_of = BookPage::Tablets;
    views.screen = ScreenName::Register;
  }

  void operator()(const ToBackups&) const {
    views.setup = {};
    views.setup.section = SetupSection::About;
    views.setup.backups = true;
    views.screen = ScreenName::Setup;
  }

  // The walk has none: it stays as it is.
  void first_page(ScreenName screen) const {
    switch (screen) {
      case ScreenName::Yards:
        return void(views.yards = {});
      case ScreenName::Counts:
        return void(views.counts = {});
      case ScreenName::Courses:
        return void(views.courses = {});
      case ScreenName::Kit:
        return void(views.kit = {});
      case ScreenName::Register:
        return void(views.book = {});
      case ScreenName::Setup:
        return void(views.setup = {});
      case ScreenName::Today:
      case ScreenName::Walk:
      case ScreenName::Alarms:
        return;
    }
  }
};

}  // namespace

void go_to(const GoTo& way, Views& views) { std::visit(Way{views}, way); }

}  // namespace ui
