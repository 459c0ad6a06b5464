// Counts of mites from spreadsheets. All names are invented.
#include "tests/support/sheet_fixture.h"

namespace sheet_counts_test {

namespace {

struct CountFixture : SheetFixture {
  CountFixture() { read("Yard,Hive\nUpper Field,U1\nUpper Field,A\nBrook,B1\nBrook,A\n"); }
};

const std::string kHead = "Yard,Hive,Date,Method,Mites,Bees,Hours,Note\n";
const std::string kCounts = kHead +
                            "Upper Field,U1,2026-08-01,Alcohol wash,6,300,,windy\n"
                            "Brook,B1,2026-08-02,Sticky board,31,,72,\n";

}  // namespace

TEST_CASE("counts are taken in") {
  CountFixture f;
  const auto report = f.read(kCounts);
  CHECK(line_of(report, 2) == "added: count of U1 on 2026-08-01: 6 mites of 300 bees");
  REQUIRE(f.farm.counts.size() == 2);
  const auto& wash = f.farm.counts[0].taken;
  CHECK(wash.colony == f.colony("U1").id);
  CHECK(wash.method == engine::CountMethod::AlcoholWash);
  CHECK(wash.mites == 6);
  CHECK(wash.bees == 300);
  CHECK(wash.note == "windy");
  CHECK(f.farm.counts[1].taken.hours == 72);
}

TEST_CASE("a second reading of counts gives no event") {
  CountFixture f;
  f.read(kCounts);
  CHECK(f.again(kCounts) == 0);
}

TEST_CASE("other numbers for a known count are refused, in the farm and in the file") {
  CountFixture f;
  f.read(kCounts);
  const auto report = f.read(kHead + "Upper Field,U1,2026-08-01,Alcohol wash,7,300,,\n" +
                             "Brook,B1,2026-08-09,Sticky board,1,,24,\n" +
                             "Brook,B1,2026-08-09,Sticky board,1,,24,\n" +
                             "Brook,B1,2026-08-09,Sticky board,2,,24,\n");
  CHECK(has(line_of(report, 2), "but the farm holds 6 mites of 300 bees"));
  CHECK(has(line_of(report, 4), "same: "));
  CHECK(has(line_of(report, 5), "but row 3 says 1 mites in 24 h"));
}

TEST_CASE("a count that was taken back does not come back") {
  CountFixture f;
  f.read(kCounts);
  f.apply(engine::EntryStruck{f.farm.counts[0].entry, "wrong hive"});
  CHECK(has(line_of(f.read(kCounts), 2),
            "refused: count of U1 on 2026-08-01: 6 mites of 300 bees: "
            "was taken back: wrong hive"));
}

TEST_CASE("bad counts are named and good ones taken") {
  struct Row {
    std::string cells, says;
  };
  const Row rows[] = {
      {"Brook,,2026-08-01,wash,1,300,,", "colony: is empty"},
      {"Brook,B1,,wash,1,300,,", "date: is empty"},
      {"Brook,B1,2026-02-30,wash,1,300,,", "date: \"2026-02-30\" is no day"},
      {"Brook,B1,8/7/2026,wash,1,300,,", "date: \"8/7/2026\" may be day/month or month/day"},
      {"Brook,B1,2026-09-30,wash,1,300,,", "date: 2026-09-30 is in the future"},
      {"Brook,B1,2026-08-01,wash,,300,,", "mites: is empty"},
      {"Brook,B1,2026-08-01,wash,-1,300,,", "mites: \"-1\" must be 0 to"},
      {"Brook,B1,2026-08-01,wash,2.3,300,,", "mites: \"2.3\" is no whole number"},
      {"Brook,B1,2026-08-01,wash,300,6,,", "look for exchanged columns"},
      {"Brook,B1,2026-08-01,wash,1,0,,", "bees: \"0\" must be 1 to 2000"},
      {"Brook,B1,2026-08-01,wash,1,2001,,", "bees: \"2001\" must be 1 to 2000"},
      {"Brook,B1,2026-08-01,board,1,,0,", "hours: \"0\" must be 1 to 744"},
      {"Brook,U1,2026-08-01,wash,1,300,,", "colony \"U1\" is not known"},
      {"Nowhere,B1,2026-08-01,wash,1,300,,", "yard \"Nowhere\" is not known"},
      {",A,2026-08-01,wash,1,300,,", "more than one colony is called \"A\"; add a column"},
  };
  for (const Row& r : rows) {
    INFO(r.cells);
    CountFixture f;
    const auto report = f.read(kHead + r.cells + "\n,B1,2026-08-20,wash,0,300,,\n");
    CHECK_MESSAGE(has(line_of(report, 2), "refused: "), line_of(report, 2));
    CHECK_MESSAGE(has(line_of(report, 2), r.says), line_of(report, 2));
    CHECK(has(line_of(report, 3), "added: "));
  }
}

TEST_CASE("days of two orders are read when the file itself tells which") {
  CountFixture f;
  const auto report = f.read("Hive;Date;Mites;Bees\nB1;8/7/2026;1;300\nB1;7/13/2026;2;300\n");
  CHECK(line_of(report, 2) == "added: count of B1 on 2026-08-07: 1 mites of 300 bees");
  const auto dotted = f.read("Hive;Date;Mites;Bees\nU1;8.7.2026;1;300\n");
  CHECK(line_of(dotted, 2) == "added: count of U1 on 2026-07-08: 1 mites of 300 bees");
}

TEST_CASE("a method that is not known or not said is other, and the word is kept") {
  CountFixture f;
  f.read(
      "Hive,Date,Mites,Method,Hours\nB1,2026-08-01,1,by "
      "eye,\nB1,2026-08-02,1,,24\nB1,2026-08-03,1,,\n");
  REQUIRE(f.farm.counts.size() == 3);
  CHECK(f.farm.counts[0].taken.method == engine::CountMethod::Other);
  CHECK(f.farm.counts[0].taken.note == "method: by eye");
  CHECK(f.farm.counts[1].taken.method == engine::CountMethod::StickyBoard);
  CHECK(f.farm.counts[2].taken.method == engine::CountMethod::Other);
}

TEST_CASE("a count of a colony that was lost since is taken") {
  CountFixture f;
  f.apply(engine::ColonyLost{f.colony("B1").id, "dead-out"});
  CHECK(has(line_of(f.read(kCounts), 3), "added: "));
}

}  // namespace sheet_counts_test
