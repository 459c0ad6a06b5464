// Yards and colonies from spreadsheets. All names are invented.
#include "tests/support/sheet_fixture.h"

namespace sheet_places_test {

namespace {

const std::string kColonies =
    "Apiary,Hive,Brood boxes,Supers,East (m),North (m),Order,Lat,Lon,Queen,Notes\n"
    "Upper Field,U1,2,yes,0,0,1,40.100000,-105.200000,blue,by the gate\n"
    "Upper Field,U2,1,no,2.5,-1.25,2,40.100000,-105.200000,,\n"
    "Brook,B1,,,,,,,,,\n";

}  // namespace

TEST_CASE("yards are taken in with place, zone and notes") {
  SheetFixture f;
  const auto report = f.read(
      "Yard;Latitude;Longitude;Time zone;Owner\n"
      "Upper Field;40,1;-105,25;America/Denver;A. Example\n"
      "Brook;;;;\n");
  CHECK(report.count(storage::RowFate::Added) == 2);
  const auto& yard = f.yard("Upper Field");
  CHECK(yard.place == engine::Place{40'100'000, -105'250'000});
  CHECK(yard.zone == "America/Denver");
  CHECK(yard.note == "Owner: A. Example");
  CHECK_FALSE(f.yard("Brook").place);
}

TEST_CASE("colonies are taken in, and the yards that are not there yet") {
  SheetFixture f;
  const auto report = f.read(kColonies);
  CHECK(report.count(storage::RowFate::Added) == 3);
  CHECK(f.farm.yards.size() == 2);
  const auto& u1 = f.colony("U1");
  CHECK(u1.brood_boxes == 2);
  CHECK(u1.supers_on);
  CHECK(u1.spot == engine::Spot{0, 0});
  CHECK(u1.note == "by the gate\nQueen: blue");
  CHECK(f.colony("U2").spot == engine::Spot{250, -125});
  CHECK(f.colony("U2").order == 2);
  CHECK(f.colony("B1").brood_boxes == 1);
  CHECK(f.yard("Upper Field").place == engine::Place{40'100'000, -105'200'000});
}

TEST_CASE("a second reading of the same file gives no event") {
  SheetFixture f;
  f.read(kColonies);
  CHECK(f.again(kColonies) == 0);
  CHECK(f.read(kColonies).count(storage::RowFate::Same) == 3);
}

TEST_CASE("names are known again whatever their case and white space") {
  SheetFixture f;
  f.read(kColonies);
  CHECK(f.again("yard,colony\n upper  FIELD ,u1\n") == 0);
}

TEST_CASE("only what changed becomes an event, and empty cells change nothing") {
  SheetFixture f;
  f.read(kColonies);
  const auto report =
      f.read("Hive,Yard,Boxes,Supers,Queen\nU1,Upper Field,3,,red\nU2,Upper Field,1,no,\n");
  CHECK(line_of(report, 2) == "changed: colony U1 in Upper Field: brood boxes, notes");
  CHECK(line_of(report, 3) == "same: colony U2 in Upper Field");
  CHECK(f.colony("U1").brood_boxes == 3);
  CHECK(f.colony("U1").supers_on);
  CHECK(f.colony("U1").note == "by the gate\nQueen: red");
}

TEST_CASE("bad rows are named and good ones taken") {
  struct Row {
    std::string cells, says;
  };
  const Row rows[] = {
      {"Brook,,1,,,,,", "colony: is empty"},
      {",B1,1,,,,,", "yard: is empty"},
      {"Brook,B1,0,,,,,", "brood boxes: \"0\" must be 1 to 9"},
      {"Brook,B1,10,,,,,", "brood boxes: \"10\" must be 1 to 9"},
      {"Brook,B1,two,,,,,", "brood boxes: \"two\" is no whole number"},
      {"Brook,B1,1.5,,,,,", "brood boxes: \"1.5\" is no whole number"},
      {"Brook,B1,=1+1,,,,,", "brood boxes: \"=1+1\" is no whole number"},
      {"Brook,B1,1,maybe,,,,", "supers: \"maybe\" is neither yes nor no"},
      {"Brook,B1,1,,5,,,", "north: \"\" is no number"},
      {"Brook,B1,1,,5000,0,,", "east: \"5000\" is more than 1 km"},
      {"Brook,B1,1,,,,91,0", "latitude: \"91\" is out of range"},
      {"Brook,B1,1,,,,40,-181", "longitude: \"-181\" is out of range"},
      {"Brook," + std::string(200, 'n') + ",1,,,,,", "is longer than 120 letters"},
  };
  for (const Row& r : rows) {
    INFO(r.cells);
    SheetFixture f;
    const auto report = f.read("Yard,Colony,Boxes,Supers,x,y,lat,lon\n" + r.cells + "\nBrook,B9\n");
    CHECK_MESSAGE(has(line_of(report, 2), "refused: "), line_of(report, 2));
    CHECK_MESSAGE(has(line_of(report, 2), r.says), line_of(report, 2));
    CHECK(line_of(report, 3) == "added: colony B9 in Brook (a new yard)");
  }
}

TEST_CASE("rows that repeat change nothing, rows that contradict are refused") {
  SheetFixture f;
  const auto report = f.read("Yard,Hive,Boxes\nBrook,B1,2\n\nbrook,b1,2\nBrook,B1,3\n");
  CHECK(line_of(report, 4) == "same: colony b1 in brook");
  CHECK(has(line_of(report, 5), "refused: colony B1 in Brook: row 2 says otherwise (brood boxes)"));
  CHECK(f.colony("B1").brood_boxes == 2);
}

TEST_CASE("a lost colony or yard does not come back from an old sheet") {
  SheetFixture f;
  f.read(kColonies);
  f.apply(engine::ColonyLost{f.colony("U2").id, "dead-out"});
  f.apply(engine::YardLost{f.yard("Brook").id, "sold"});
  const auto report = f.read(kColonies);
  CHECK(has(line_of(report, 3), "refused: colony \"U2\" was lost"));
  CHECK(has(line_of(report, 4), "refused: yard \"Brook\" was given up"));
}

TEST_CASE("formula-looking cells stay text, ragged and long rows are kept") {
  SheetFixture f;
  f.read("Yard,Hive,Mark\n=SUM(A1),@U1,+1,extra\nBrook\nBrook,B1\n");
  CHECK(f.yard("=SUM(A1)").name == "=SUM(A1)");
  CHECK(f.colony("@U1").note == "Mark: +1\ncolumn D: extra");
  CHECK(f.colony("B1").note.empty());
}

TEST_CASE("hives with places of their own keep them as notes, again and again") {
  SheetFixture f;
  const std::string text = "Yard,Hive,Lat,Lon\nBrook,B1,40,-105\nBrook,B2,40.0001,-105\n";
  f.read(text);
  CHECK(f.yard("Brook").place == engine::Place{40'000'000, -105'000'000});
  CHECK(f.colony("B2").note == "place: 40.000100 -105.000000");
  CHECK(f.again(text) == 0);
}

TEST_CASE("feet and centimetres become centimetres") {
  SheetFixture f;  // 1 ft is 0.3048 m exactly (international yard and pound, 1959)
  f.read("Yard,Hive,x (ft),y (cm)\nBrook,B1,10,-40\n");
  CHECK(f.colony("B1").spot == engine::Spot{305, -40});
}

TEST_CASE("a note keeps the lines that are there") {
  CHECK(storage::report_text({}).find("0 rows") != std::string::npos);
  SheetFixture f;
  f.read("Yard,Hive,Queen,Note\nBrook,B1,blue,first\n");
  engine::ColonyChanged by_hand;
  by_hand.colony = f.colony("B1").id;
  by_hand.note = f.colony("B1").note + "\nwritten in the yard";
  f.apply(by_hand);
  f.read("Yard,Hive,Queen,Note\nBrook,B1,red,first\n");
  CHECK(f.colony("B1").note == "first\nQueen: red\nwritten in the yard");
}

TEST_CASE(
    "no cell of an unknown column and no note is lost, and a second reading changes nothing") {
  struct Row {
    std::string name, text, note;
  };
  const Row rows[] = {
      {"a note that looks like a column's line",
       "Yard,Colony,Notes,Queen\nA,1,Queen: red dot,2024\n", "Notes: Queen: red dot\nQueen: 2024"},
      {"a header with a colon", "Yard,Colony,a: b,a\nA,1,x,y\n", "a:b: x\na: y"},
      {"a value with a colon", "Yard,Colony,a,a: b\nA,1,b: y,x\n", "a: b: y\na:b: x"},
      {"a header twice", "Yard,Colony,Colour,Colour\nA,1,red,blue\n",
       "Colour: red\nColour 2: blue"},
      {"two columns of notes", "Yard,Colony,Notes,Notes\nA,1,one,two\n", "one\nNotes 2: two"},
      {"a header like ours", "Yard,Colony,place,Notes\nA,1,left,Notes: x\n",
       "Notes: Notes: x\nplace 2: left"},
      {"no header, and one that says the same", "Yard,Colony,column D\nA,1,x,y\n",
       "column D: x\ncolumn D 2: y"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    SheetFixture f;
    f.read(r.text);
    CHECK(f.colony("1").note == r.note);
    const auto again = f.read(r.text);
    CHECK_MESSAGE(again.count(storage::RowFate::Same) == 1, line_of(again, 2));
  }
}

TEST_CASE("an empty cell says nothing: a later row of the same colony may say it") {
  SheetFixture f;
  const std::string text =
      "Yard,Colony,Boxes,Supers,Queen\nA,1,,yes,\nA,1,2,,\nA,1,,,red\nA,1,3,,\nA,1,,no,blue\n";
  const auto report = f.read(text);
  CHECK(line_of(report, 3) == "changed: colony 1 in A: brood boxes");
  CHECK(line_of(report, 4) == "changed: colony 1 in A: notes");
  CHECK(has(line_of(report, 5), "refused: colony 1 in A: row 3 says otherwise (brood boxes)"));
  CHECK(has(line_of(report, 6), "refused: colony 1 in A: row 2 says otherwise (supers)"));
  CHECK(f.colony("1").brood_boxes == 2);
  CHECK(f.colony("1").supers_on);
  CHECK(f.colony("1").note == "Queen: red");
  CHECK(f.again(text) == 0);
}

TEST_CASE("a row that is refused changes its yard neither") {
  SheetFixture f;
  f.read("Yard,Colony,Boxes,Lat,Lon\nA,1,2,,\nA,1,3,40,-105\n");
  CHECK_FALSE(f.yard("A").place);
}

TEST_CASE("a yard's empty cells say nothing either") {
  SheetFixture f;
  const std::string text = "Yard,Time zone,Owner\nA,,x\nA,America/Denver,\nA,UTC,\n";
  const auto report = f.read(text);
  CHECK(line_of(report, 3) == "changed: yard A: time zone");
  CHECK(has(line_of(report, 4), "row 3 says otherwise (time zone)"));
  CHECK(f.again(text) == 0);
}

}  // namespace sheet_places_test
