// The register's pages behind the day: find, lots, correcting, entering late, other tablets, tags.
#include <doctest/doctest.h>

#include "engine/events/tag.h"
#include "engine/farm/merge_order.h"
#include "engine/farm/setups.h"
#include "engine/register/register.h"
#include "tests/support/farm_states.h"
#include "ui/screens/shell/jump.h"

namespace book_screen_test {

using test::Evening;

namespace {

void go(Evening& e, const std::vector<std::string>& labels) {
  for (const std::string& label : labels) {
    while (!e.has(label) && e.has("NEXT") && e.target("NEXT").enabled) e.tap("NEXT");
    e.tap(label);
  }
}

std::size_t rows(const Evening& e) { return engine::register_rows(e.farm, {}).size(); }

}  // namespace

TEST_CASE("a wrong dose is corrected in one entry, and struck words stay readable") {
  Evening e;
  test::season(e);
  const std::size_t before = e.farm.log.size();
  go(e, {"Register", "A4: 2 g dihydrate set", "Correct"});
  CHECK(e.sees("nothing is changed"));
  CHECK_FALSE(e.target("Save correction").enabled);
  go(e, {"Dose", "1", "OK", "Why corrected", "read wrong", "Save correction"});
  CHECK(e.refused.empty());
  CHECK(e.farm.log.size() == before + 1);
  CHECK(e.sees("Corrected on Wed 19 Aug 2026: read wrong"));
  CHECK(e.sees("In its place: A4: corrected entry"));
  CHECK(e.farm.lots.at(test::id<engine::LotId>(1)).used.mg == 7000);
}

TEST_CASE("what others stand on can be corrected though it cannot be struck") {
  Evening e;
  test::season(e);
  go(e, {"Register"});
  for (const engine::Entry& entry : e.farm.log)
    if (std::holds_alternative<engine::StockReceived>(entry.event.body) && !e.views.book.entry)
      e.views.book.entry = entry.event.ref;
  e.redraw();
  CHECK_FALSE(e.has("Strike"));
  CHECK(e.sees("Other entries stand on this one; strike those first."));
  CHECK(e.sees("Striking this would also drop: "));
  CHECK(e.sees("treatments of 14 Aug"));
  go(e, {"Correct", "Lot code"});
  go(e, {"x", "OK", "Save correction"});
  CHECK(e.refused.empty());
  CHECK(e.farm.lots.at(test::id<engine::LotId>(1)).code == "24-118x");
}

TEST_CASE("what a strike takes along is said before, and a strike is taken back") {
  Evening e;
  test::season(e);
  const std::size_t before = e.farm.log.size();
  go(e, {"Register", "A4: 2 g dihydrate set"});
  CHECK(e.sees("Striking this also drops: "));
  CHECK(e.sees(" of 14 Aug."));
  go(e, {"wrong colony"});
  e.hold("Strike");
  CHECK(e.refused.empty());
  REQUIRE(e.farm.log.size() == before + 1);
  CHECK(e.farm.lots.at(test::id<engine::LotId>(1)).used.mg == 6000);
  CHECK(e.sees("Struck on Wed 19 Aug 2026: wrong colony"));
  CHECK_FALSE(e.has("Strike"));
  e.hold("Take the strike back");
  CHECK(e.refused.empty());
  CHECK(e.farm.log.size() == before + 2);
  CHECK(e.farm.lots.at(test::id<engine::LotId>(1)).used.mg == 8000);
  CHECK(e.has("Strike"));
}

TEST_CASE("which colonies got a lot: two taps from the register") {
  Evening e;
  test::season(e);
  e.tap("Register");
  const int before = e.taps;
  go(e, {"Lots", "24-118"});
  CHECK(e.taps - before == 2);
  CHECK(e.sees("given to 4 colonies"));
  CHECK(e.sees("A1, Thistle Bank"));
  CHECK_FALSE(e.sees("A2, Thistle Bank"));
}

TEST_CASE("the register is found by yard, colony and period, and says from when it is complete") {
  Evening e;
  test::season(e);
  go(e, {"Register", "Find"});
  CHECK(e.sees("complete from Fri 14 Aug 2026"));
  CHECK(e.sees("7 rows found"));
  go(e, {"Colony", "Thistle Bank", "A1"});
  CHECK(e.sees("2 rows found"));
  go(e, {"Period", "This year", "Yard", "Quarry Gate"});
  CHECK(e.sees("0 rows found"));
  go(e, {"Show everything"});
  CHECK(e.sees("7 rows found"));
  go(e, {"Period", "Last year"});
  CHECK(e.sees("Nothing of that is in the register."));
}

TEST_CASE("vapor of an earlier evening is entered for several colonies in one act") {
  Evening e;
  test::season(e);
  const std::size_t before = rows(e);
  go(e, {"Register", "Enter late", "Thistle Bank"});
  CHECK(e.sees("choose the colonies first"));
  go(e, {"Colonies", "A1", "A6", "Back", "Day", "Yesterday", "Time", "2", "0", "1", "5", "OK"});
  CHECK(e.sees("20:15"));
  e.tap("Save late entry");
  CHECK(e.refused.empty());
  CHECK(rows(e) == before + 2);
  const auto all = engine::register_rows(e.farm, {});
  CHECK(all.back().entered.has_value());
  CHECK(engine::iso_date(all.back().date) == "2026-08-18");
  CHECK(e.sees("entered late"));
}

TEST_CASE("a colony that was not reached is entered into that day's walk") {
  Evening e;
  test::season(e);
  go(e, {"Register", "Enter late", "Thistle Bank", "Colonies", "A6", "Back", "Day"});
  for (const char c : std::string("20260814")) e.tap(std::string(1, c));
  e.tap("OK");
  CHECK(e.sees("joins the walk of that day"));
  e.tap("Save late entry");
  CHECK(e.refused.empty());
  for (const engine::ComeBack& c : engine::come_back_list(e.farm)) CHECK(c.colony != e.colony(6));
}

TEST_CASE("acid is disposed of with why, how and where") {
  Evening e;
  test::season(e);
  go(e, {"Kit", "Acid", "25-002", "Dispose of some"});
  CHECK_FALSE(e.target("Save disposal").enabled);
  go(e, {"Amount", "5", "0", "OK", "Why", "spoiled", "Save disposal"});
  CHECK(e.refused.empty());
  CHECK(e.farm.lots.at(test::id<engine::LotId>(2)).left().mg == 225'000);
  CHECK(e.sees("50 g disposed of"));
}

TEST_CASE("a stick's bundles are asked for, but not while a walk goes on") {
  Evening e;
  test::season(e);
  e.sticks = {{"KEEPER STICK", "/media/keeper", false, {}}};
  go(e, {"Register", "Other tablets", "Take in from KEEPER"});
  REQUIRE(e.outside.size() == 1);
  CHECK(std::get<ui::TakeIn>(e.outside[0]).folder == "/media/keeper");
  go(e, {"Today", "Start walk"});
  test::start_walk(e);
  go(e, {"Register", "Other tablets"});
  CHECK(e.sees("end the walk first"));
  CHECK_FALSE(e.target("Take in from KEEPER").enabled);
}

namespace {

// Another tablet's entries beside those of this one, as this one shows them.
void take_in(Evening& e, const std::vector<engine::Body>& bodies) {
  std::vector<engine::Event> events;
  for (const engine::Entry& entry : e.farm.log) events.push_back(entry.event);
  std::int64_t seq = 0;
  for (const engine::Body& body : bodies)
    events.push_back({{test::id<engine::DeviceId>(0xd2), ++seq}, e.now(), body});
  e.farm = engine::shown_on(engine::fold_together(std::move(events)), e.device());
  e.redraw();
}

engine::SetupChanged another_dose(const Evening& e) {
  engine::SetupChanged there;
  there.operator_name = "B. Example";
  there.rules = *e.farm.setup.rules;
  there.rules->per_brood_box = {1500};
  return there;
}

}  // namespace

TEST_CASE("another tablet's label holds here only after a hold, old and new side by side") {
  Evening e;
  test::season(e);
  const engine::Mass before = e.farm.setup.rules->per_brood_box;
  const std::string name = e.farm.setup.operator_name;
  take_in(e, {another_dose(e)});
  CHECK(e.farm.setup.rules->per_brood_box == before);
  go(e, {"Setup", "Label", "Another tablet has a label"});
  test::tap_listed(e, "has another label");
  CHECK(e.sees("1.5 g dihydrate there"));
  CHECK_FALSE(e.has("Use all its settings"));
  CHECK_THROWS(e.tap("Use it here too"));
  e.hold("Use it here too");
  CHECK(e.refused.empty());
  CHECK(e.farm.setup.rules->per_brood_box.mg == 1500);
  CHECK(e.farm.setup.operator_name == name);
  CHECK(e.sees("Nothing contradicts"));
}

TEST_CASE("a label that is kept is not asked about again") {
  Evening e;
  test::season(e);
  const engine::Mass before = e.farm.setup.rules->per_brood_box;
  take_in(e, {another_dose(e)});
  go(e, {"Register", "Other tablets"});
  test::tap_listed(e, "has another label");
  e.tap("Keep ours");
  CHECK(e.refused.empty());
  CHECK(e.farm.setup.rules->per_brood_box == before);
  CHECK(e.sees("Nothing contradicts"));
}

TEST_CASE("a colony that two tablets entered becomes one by a hold, and what is joined is shown") {
  Evening e;
  test::season(e);
  const std::size_t before = e.farm.colonies.size();
  const auto twin = test::id<engine::ColonyId>(802);
  take_in(e, {engine::ColonyAdded{twin, test::id<engine::YardId>(1), "A2", 2},
              engine::CountTaken{
                  twin, test::day_from(e, 0), engine::CountMethod::AlcoholWash, 7, 300, {}, ""}});
  CHECK(e.farm.colonies.size() == before + 1);
  go(e, {"Register", "Other tablets"});
  test::tap_listed(e, "One name twice");
  e.tap("They are one");
  CHECK(e.sees("(1 count, 0 settings)"));
  e.hold("Join them");
  CHECK(e.refused.empty());
  CHECK(e.farm.colonies.size() == before);
  CHECK(e.farm.counts.any_of(e.colony(2)));
  INFO(e.all_words());
  CHECK(e.sees("Nothing contradicts"));
}

TEST_CASE("tags go onto a stick, or onto the tablet where there is none") {
  Evening e;
  test::season(e);
  go(e, {"Yards", "Thistle Bank", "More"});
  CHECK_FALSE(e.target("Hive tags").enabled);
  e.sticks = {{"KEEPER STICK", "/media/keeper", false, {}}};
  e.redraw();
  e.tap("Hive tags");
  REQUIRE(e.outside.size() == 1);
  const auto& asked = std::get<ui::WritePaper>(e.outside[0]);
  CHECK(asked.folder == "/media/keeper");
  CHECK(asked.query.yard == test::id<engine::YardId>(1));
}

TEST_CASE("a tag leads to its colony: its page, or the walk under way") {
  Evening e;
  test::season(e);
  e.tap("Setup");
  CHECK(ui::jump_to(e.farm, e.device(), e.views, e.colony(4)));
  e.redraw();
  CHECK(e.sees("A4"));
  CHECK(e.has("Count mites"));
  CHECK_FALSE(ui::jump_to(e.farm, e.device(), e.views, test::id<engine::ColonyId>(999)));
  go(e, {"Today", "Start walk"});
  test::start_walk(e);
  e.tap("Today");
  const engine::ColonyId last = e.walk()->stops.back().colony;
  CHECK(ui::jump_to(e.farm, e.device(), e.views, last));
  CHECK(e.views.screen == ui::ScreenName::Walk);
  CHECK(e.views.walk.under_way.chosen == last);
}

TEST_CASE("the time line has boxes, counts, treatments, come-backs and moves") {
  Evening e;
  test::season(e);
  e.write(engine::ColonyMoved{e.colony(4), test::id<engine::YardId>(2)});
  e.redraw();  // the book reads what was written
  const auto life = engine::timeline(e.farm, e.book, e.colony(4), {});
  std::vector<engine::LifeWhat> whats;
  for (const engine::LifeItem& item : life) whats.push_back(item.what);
  using What = engine::LifeWhat;
  CHECK(whats == std::vector{What::Boxes, What::Vapor, What::ComeBack, What::Moved});
  CHECK(life[1].words == "2 g dihydrate vapor, dwell 1:35, closed 1:00, lot 24-118");
  CHECK(life[2].words == "come back: short seal (1:00)");
  CHECK(life[3].words == "moved to Quarry Gate");
}

TEST_CASE("a time line that was open while the book was read is whole afterwards") {
  Evening e;
  test::season(e);
  for (std::size_t n = 0; n < 2 * engine::LogIndex::kPiece; ++n)
    e.write(engine::NoteWritten{{}, {}, "frames counted"});
  go(e, {"Yards", "Thistle Bank", "A4"});
  e.book = {};
  e.redraw();
  CHECK_FALSE(e.book.whole());
  while (!e.book.whole()) e.redraw();
  REQUIRE(e.views.yards.life.has_value());
  CHECK(e.views.yards.life->items.size() ==
        engine::timeline(e.farm, e.book, e.colony(4), {}).size());
}

TEST_CASE("a tag's words come back as the colony, and nothing else does") {
  const auto colony = test::id<engine::ColonyId>(0x1f4);
  const std::string tag = engine::tag_of(colony);
  CHECK(tag.size() == 34);
  CHECK(engine::colony_of_tag(tag) == colony);
  CHECK(engine::colony_of_tag(" " + tag + "\r") == colony);
  for (const std::string& wrong : {std::string(), std::string("DW"), tag + "0",
                                   "XX" + tag.substr(2), tag.substr(0, 33) + "G"}) {
    INFO(wrong);
    CHECK_FALSE(engine::colony_of_tag(wrong).has_value());
  }
}

}  // namespace book_screen_test
