#include "engine/register/log_index.h"

#include <algorithm>

#include "engine/register/search.h"
#include "tests/support/register_fixture.h"

namespace log_index_test {

using namespace engine;
using namespace fixture;

namespace {

bool same(const RegisterRow& a, const RegisterRow& b) {
  return a.entry == b.entry && a.outcome == b.outcome && a.colony == b.colony && a.date == b.date &&
         a.lot_code == b.lot_code && a.come_back == b.come_back;
}

// What a search of pieces finds, oldest first.
std::vector<RegisterRow> searched(const Farm& farm, const RegisterQuery& query, std::size_t piece) {
  LogIndex book;
  do book.read(farm, piece);
  while (!book.whole());
  Search search(farm, book, query);
  while (!search.whole()) search.go_on(farm, book, piece);
  std::vector<RegisterRow> rows;
  for (std::size_t i = search.size(); i-- > 0;) rows.push_back(search.row(farm, book, i));
  return rows;
}

}  // namespace

TEST_CASE("a search by pieces finds the rows of the register in their order") {
  const Farm farm = evening().farm;
  RegisterQuery of_colony, of_yard, of_lot, of_day, of_another;
  of_colony.colony = colony(3);
  of_yard.yard = kYard;
  of_lot.lot = LotWanted{{}, "24-118"};
  of_day.from = of_day.to = date(2026, 8, 14);
  of_another.from = date(2027, 1, 1);
  for (const RegisterQuery& query :
       {RegisterQuery{}, of_colony, of_yard, of_lot, of_day, of_another})
    for (const std::size_t piece : {1, 7, 10'000}) {
      const auto want = register_rows(farm, query);
      const auto got = searched(farm, query, piece);
      REQUIRE(got.size() == want.size());
      CHECK(std::equal(got.begin(), got.end(), want.begin(), same));
    }
}

TEST_CASE("the book follows new entries and begins anew for another log") {
  Pen pen = evening();
  LogIndex book;
  book.read(pen.farm, 5);
  CHECK_FALSE(book.whole());
  pen.write(NoteWritten{kYard, {}, "while it was read"});
  book.read(pen.farm, 0);
  const Date day = local_date(pen.farm.log.back()->event.stamp);
  CHECK(book.of_day(day).front() == pen.farm.log.size() - 1);
  CHECK(book.of_day(day).size() == 6);  // the new one and the five
  CHECK(book.notes_of(kYard).front() == pen.farm.log.size() - 1);
  book.read_all(pen.farm);
  CHECK(book.whole());
  CHECK(book.of_day(day).size() == pen.farm.log.size());
  const Farm empty;
  book.read_all(empty);
  CHECK(book.whole());
  CHECK(book.of_day(day).empty());
}

}  // namespace log_index_test
