#include "storage/sheets/sheet_columns.h"

#include <doctest/doctest.h>

namespace sheet_columns_test {

namespace {

using storage::Field;

storage::CsvRow header(std::vector<std::string> cells) { return {1, std::move(cells)}; }

int where(const std::string& name, Field field, const std::vector<std::string>& beside) {
  auto cells = beside;
  cells.push_back(name);
  const auto columns = storage::find_columns(header(cells));
  REQUIRE_MESSAGE(columns.ok(), columns.status().message());
  return columns.value().column(field);
}

}  // namespace

// The names are common practice in keepers' spreadsheets; there is no standard for them.
TEST_CASE("header names are matched loosely") {
  struct Row {
    std::string name;
    Field field;
  };
  const Row rows[] = {
      {"BROOD BOXES", Field::Boxes},
      {"brood_boxes", Field::Boxes},
      {"Brood Chambers", Field::Boxes},
      {"boxes", Field::Boxes},
      {"Hive bodies", Field::Boxes},
      {"Honey supers", Field::Supers},
      {"Supers on?", Field::Supers},
      {"x (m)", Field::East},
      {"East [metres]", Field::East},
      {"x m", Field::East},
      {"Lat.", Field::Lat},
      {"Longitude", Field::Lon},
      {"Position", Field::Order},
      {"Walk order", Field::Order},
      {"Remarks", Field::Note},
      {"Time zone", Field::Zone},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    std::vector<std::string> beside = {"Yard", "Hive No."};
    if (r.field == Field::East) beside.insert(beside.end(), "north");
    if (r.field == Field::Lat) beside.insert(beside.end(), "lon");
    if (r.field == Field::Lon) beside.insert(beside.end(), "lat");
    CHECK(where(r.name, r.field, beside) == static_cast<int>(beside.size()));
  }
}

TEST_CASE("counts have names of their own") {
  const std::vector<std::string> beside = {"Hive", "Date"};
  CHECK(where("Mites (count)", Field::Mites, beside) == 2);
  CHECK(where("# mites", Field::Mites, beside) == 2);
  const std::vector<std::string> with = {"Hive", "Date", "Mites"};
  CHECK(where("Bees counted", Field::Bees, with) == 3);
  CHECK(where("Hours on board", Field::Hours, with) == 3);
  CHECK(where("Method", Field::Method, with) == 3);
}

TEST_CASE("a rate is no count, and days are no date") {
  const auto rate = storage::find_columns(header({"Hive", "Date", "Mites %"}));
  CHECK_FALSE(rate.ok());
  const auto per = storage::find_columns(header({"Hive", "Date", "Mites (per 100 bees)"}));
  CHECK_FALSE(per.ok());
  CHECK_FALSE(storage::find_columns(header({"Hive", "Mites", "Days"})).ok());
}

TEST_CASE("the sort of a sheet is found from its headers") {
  const auto sort = [](std::vector<std::string> cells) {
    return storage::find_columns(header(std::move(cells))).value().sort;
  };
  CHECK(sort({"Apiary", "Lat", "Lon"}) == storage::SheetSort::Yards);
  CHECK(sort({"Name", "Lat", "Lon"}) == storage::SheetSort::Yards);
  CHECK(sort({"Apiary", "Hive", "Lat", "Lon"}) == storage::SheetSort::Colonies);
  CHECK(sort({"Apiary", "Name", "Boxes"}) == storage::SheetSort::Colonies);
  CHECK(sort({"Apiary", "Hive", "Boxes", "Mites", "Date"}) == storage::SheetSort::Counts);
}

TEST_CASE("what is missing or stands twice is named") {
  struct Row {
    std::vector<std::string> cells;
    std::string says;
  };
  const Row rows[] = {
      {{"Boxes", "Queen"}, "\"yard\", \"colony\" or \"mites\""},
      {{"Hive", "Boxes"}, "none is called \"yard\""},
      {{"Hive", "Mites"}, "none is called \"date\""},
      {{"Mites", "Date"}, "none is called \"colony\""},
      {{"Yard", "Hive", "Colony"}, "columns B (\"Hive\") and C (\"Colony\") both say the colony"},
      {{"Yard", "Yard"}, "both say the yard"},
  };
  for (const Row& r : rows) {
    INFO(r.says);
    const auto columns = storage::find_columns(header(r.cells));
    CHECK(columns.status().code() == engine::Code::BadInput);
    CHECK(columns.status().message().find(r.says) != std::string::npos);
  }
}

TEST_CASE("the stronger of two names wins and the other is kept as a note") {
  const auto columns = storage::find_columns(header({"Location", "Yard", "Hive"}));
  REQUIRE(columns.ok());
  CHECK(columns.value().column(Field::Yard) == 1);
  REQUIRE(columns.value().extras.size() == 1);
  CHECK(columns.value().extras[0].key == "Location");
}

TEST_CASE("columns that are not known are named and kept") {
  const auto columns = storage::find_columns(header({"Yard", "Hive", "Queen year", ""}));
  REQUIRE(columns.ok());
  REQUIRE(columns.value().extras.size() == 2);
  CHECK(columns.value().extras[0].key == "Queen year");
  CHECK(columns.value().extras[1].key == "column D");
  CHECK(columns.value().lines[2] == "column C \"Queen year\": not known, kept in the notes");
}

TEST_CASE("every unknown column has a key of its own, and none can be taken for another's") {
  const auto columns =
      storage::find_columns(header({"Yard", "Hive", "Colour", "Colour", "Colour 2", "a: b", "a",
                                    "Notes", "Notes", "place", "a:b"}));
  REQUIRE(columns.ok());
  std::vector<std::string> keys;
  for (const storage::Extra& e : columns.value().extras) keys.push_back(e.key);
  CHECK(keys == std::vector<std::string>{"Colour", "Colour 2", "Colour 2 2", "a:b", "a", "Notes 2",
                                         "place 2", "a:b 2"});
  CHECK(columns.value().lines[3] ==
        "column D \"Colour\": not known, kept in the notes as \"Colour 2\"");
}

TEST_CASE("headings of other languages say the same") {
  struct Row {
    std::string language;
    std::vector<std::string> colonies, counts;
  };
  const Row rows[] = {
      {"German",
       {"Bienenstand", "Volk", "Brutzargen", "Honigraum", "Bemerkungen"},
       {"Datum", "Bienenstand", "Volk", "Methode", "Milben", "Bienen", "Stunden"}},
      {"Spanish",
       {"Colmenar", "Colmena", "C\u00e1mara de cr\u00eda", "Alza", "Observaciones"},
       {"Fecha", "Colmenar", "Colmena", "M\u00e9todo", "\u00c1caros", "Abejas", "Horas"}},
      {"French",
       {"Rucher", "Ruche", "Corps de couvain", "Hausse", "Remarques"},
       {"Date", "Rucher", "Ruche", "M\u00e9thode", "Acariens", "Abeilles", "Heures"}},
  };
  for (const Row& r : rows) {
    INFO(r.language);
    const auto colonies = storage::find_columns(header(r.colonies));
    REQUIRE(colonies.ok());
    CHECK(colonies.value().sort == storage::SheetSort::Colonies);
    CHECK(colonies.value().extras.empty());
    const auto counts = storage::find_columns(header(r.counts));
    REQUIRE(counts.ok());
    CHECK(counts.value().sort == storage::SheetSort::Counts);
    CHECK(counts.value().extras.empty());
  }
}

TEST_CASE("columns are lettered as spreadsheets letter them") {
  CHECK(storage::column_letters(0) == "A");
  CHECK(storage::column_letters(25) == "Z");
  CHECK(storage::column_letters(26) == "AA");
  CHECK(storage::column_letters(701) == "ZZ");
  CHECK(storage::column_letters(702) == "AAA");
}

}  // namespace sheet_columns_test
