// One sheet, read on two tablets: one farm of it, not two. All names are invented.
#include <algorithm>

#include "engine/farm/merge_order.h"
#include "engine/words/contradictions.h"
#include "storage/text/named_id.h"
#include "tests/support/sheet_fixture.h"

namespace sheet_twice_test {

namespace {

using engine::Contradiction;

const std::string kYards =
    "Yard,Latitude,Longitude,Notes\nUpper Field,40.1,-105.2,by the mill\nBrook,,,\n";
const std::string kColonies =
    "Yard,Hive,Boxes,Supers\nUpper Field,U1,2,yes\nUpper Field,A,1,no\nBrook,A,1,no\n";
const std::string kCounts =
    "Yard,Hive,Date,Method,Mites,Bees\n"
    "Upper Field,U1,2026-08-01,Alcohol wash,6,300\n"
    "Brook,A,2026-08-02,Sugar roll,0,300\n";

// Two tablets that never met.
struct Two {
  SheetFixture a, b;
  Two() { b.device = engine::DeviceId{{0x77}}; }

  void both(const std::string& text) { a.read(text), b.read(text); }
  // What each has after taking in the other; both in one order, whichever came first.
  [[nodiscard]] engine::Farm met() const {
    std::vector<engine::Event> all = a.events;
    all.insert(all.end(), b.events.begin(), b.events.end());
    const engine::Farm one = engine::fold_together(all);
    std::rotate(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(a.events.size()), all.end());
    CHECK(engine::state_hash(engine::fold_together(all)) == engine::state_hash(one));
    CHECK(engine::state_hash(engine::take_together(a.farm, b.events)) == engine::state_hash(one));
    CHECK(engine::state_hash(engine::take_together(b.farm, a.events)) == engine::state_hash(one));
    return one;
  }
};

std::size_t found(const engine::Farm& farm, Contradiction what) {
  const auto all = engine::contradictions(farm);
  return static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [&](const auto& c) { return c.what == what; }));
}

engine::EntryRef entry_of_count(const SheetFixture& f, int mites) {
  for (const engine::Event& e : f.events)
    if (const auto* c = std::get_if<engine::CountTaken>(&e.body); c != nullptr && c->mites == mites)
      return e.ref;
  FAIL("no such count");
  return {};
}

}  // namespace

// Made by Python's hashlib and the layout of RFC 9562 section 5.8, from the lines that sheet_farm.h
// names.
TEST_CASE("ids of what a sheet names follow from its words") {
  CHECK(engine::uuid_text(storage::named_id({"duskwalk sheet yard", "brook", "1"})) ==
        "cd321247-068d-8298-9968-3dfbc60368bc");
  SheetFixture f;
  f.read(
      "Yard,Hive\nBROOK,B1\nUpper  Field,\xc3\x9c"
      "1\n");
  f.read(
      "Yard,Hive,Date,Method,Mites,Bees\nUpper Field,\xc3\xbc"
      "1,2026-07-02,wash,3,300\n");
  CHECK(engine::text(f.yard("BROOK").id) == "cd321247-068d-8298-9968-3dfbc60368bc");
  CHECK(engine::text(f.colony("\xc3\x9c"
                              "1")
                         .id) == "cbb5ea91-6979-8270-aca2-4579d32b9c65");
  REQUIRE(f.farm.counts.size() == 1);
  CHECK(engine::text(*f.farm.counts[0].taken.count) == "0203b7ae-abe3-86e2-83ca-f5fd7749ccaf");
}

TEST_CASE("two tablets that read one sheet have one farm of it, and nothing to settle") {
  Two t;
  for (const std::string& sheet : {kYards, kColonies, kCounts}) t.both(sheet);
  const engine::Farm farm = t.met();
  CHECK(farm.yards.size() == 2);
  CHECK(farm.colonies.size() == 3);
  CHECK(farm.counts.size() == 2);
  CHECK(engine::contradictions(farm).empty());
}

TEST_CASE("what one tablet's sheet did not say is filled in from the other's") {
  Two t;
  t.a.read(kColonies);
  t.b.read(kYards), t.b.read(kColonies);
  const engine::Farm farm = t.met();
  const engine::Yard* upper = engine::find_yard(farm, "Upper Field");
  REQUIRE(upper != nullptr);
  CHECK(upper->place == engine::Place{40'100'000, -105'200'000});
  CHECK(upper->note == "by the mill");
  CHECK(farm.colonies.size() == 3);
  CHECK(engine::contradictions(farm).empty());
}

TEST_CASE("where two readings differ, the first holds and both are shown") {
  Two t;
  t.a.read("Yard,Hive,Boxes\nBrook,A,1\n");
  t.b.read("Yard,Hive,Boxes\nBrook,A,2\n");
  t.a.read("Yard,Hive,Date,Method,Mites,Bees\nBrook,A,2026-08-02,wash,1,300\n");
  t.b.read("Yard,Hive,Date,Method,Mites,Bees\nBrook,A,2026-08-02,wash,2,300\n");
  const engine::Farm farm = t.met();
  CHECK(farm.colonies.size() == 1);
  CHECK(farm.counts.size() == 1);
  CHECK(found(farm, Contradiction::SaidTwice) == 2);
  CHECK(engine::contradictions(farm).size() == 2);
}

TEST_CASE("a yard that was renamed and one that came under its old name are two on every tablet") {
  Two t;
  t.both(kColonies);
  const engine::YardId brook = t.a.yard("Brook").id;
  t.a.apply(engine::YardChanged{brook, "Old Brook", {}, {}, {}});
  t.a.read("Yard,Hive\nBrook,A\n");  // the sheet still says Brook: on this tablet another one
  const engine::Farm farm = t.met();
  CHECK(farm.yards.size() == 3);
  CHECK(farm.yards.at(brook).name == "Old Brook");
  CHECK(farm.colonies.size() == 4);
}

TEST_CASE("a yard that was struck can be read again, and comes back as the same") {
  SheetFixture f;
  f.read("Yard,Notes\nBrook,wet\n");
  const engine::YardId id = f.yard("Brook").id;
  f.apply(engine::EntryStruck{f.events.back().ref, "not ours"});
  CHECK(f.farm.yards.empty());
  f.read("Yard,Notes\nBrook,dry\n");
  CHECK(f.yard("Brook").id == id);
  CHECK(f.yard("Brook").note == "dry");
}

namespace {

// Six mites were nine, says the keeper of that tablet.
void correct(SheetFixture& f) {
  const engine::EntryRef wrong = entry_of_count(f, 6);
  engine::CountTaken right;
  for (const engine::Count& c : f.farm.counts)
    if (c.entry == wrong) right = c.taken;
  right.mites = 9;
  f.apply(engine::EntryCorrected{wrong, "misread", engine::Replacement{right}});
}

bool nine(const engine::Farm& farm) {
  return std::any_of(farm.counts.begin(), farm.counts.end(),
                     [](const engine::Count& c) { return c.taken.mites == 9; });
}

}  // namespace

TEST_CASE("a count that was corrected stays so when another tablet's reading comes") {
  Two t;
  t.both(kColonies), t.both(kCounts);
  correct(t.a);
  const engine::Farm farm = t.met();
  CHECK(farm.counts.size() == 2);
  CHECK(nine(farm));
  CHECK(engine::contradictions(farm).empty());
}

TEST_CASE("a correction of the later reading does not hold by itself, and is shown") {
  Two t;
  t.both(kColonies), t.both(kCounts);
  correct(t.b);
  const engine::Farm farm = t.met();
  CHECK(farm.counts.size() == 2);
  CHECK_FALSE(nine(farm));
  CHECK(found(farm, Contradiction::SaidTwice) == 1);
}

TEST_CASE("a count that is struck on the tablet that has both readings leaves the other's") {
  Two t;
  t.both(kColonies), t.both(kCounts);
  engine::Farm farm = t.met();
  REQUIRE(farm.counts.size() == 2);
  const engine::EntryRef first = farm.counts[0].entry;
  const engine::EntryRef next{t.a.device, farm.last_seq[t.a.device] + 1};
  farm = engine::apply(std::move(farm), {next, {}, engine::EntryStruck{first, "no"}});
  CHECK(farm.counts.size() == 2);
  CHECK(std::none_of(farm.counts.begin(), farm.counts.end(),
                     [&](const engine::Count& c) { return c.entry == first; }));
}

}  // namespace sheet_twice_test
