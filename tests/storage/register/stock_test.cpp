// Acid bought and disposed of, corrected and entered late, in the files that people open.
#include <doctest/doctest.h>

#include "storage/register/register_files.h"
#include "tests/support/payload_fixture.h"

namespace stock_test {

using namespace fixture;

namespace {

bool holds_text(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

// The evening; then half the lot was spilled, at first written down as 10 g.
Pen with_disposal() {
  Pen pen = evening();
  engine::AcidDisposed spilled{
      kLot, {10'000}, date(2026, 8, 14), engine::DisposalWhy::Spilled, "=swept up, council yard"};
  const engine::EntryRef wrong = pen.write(spilled);
  spilled.amount = {12'300};
  pen.write(engine::EntryCorrected{wrong, "weighed again", engine::Replacement{spilled}});
  return pen;
}

std::string html_of(const engine::Farm& farm, const engine::RegisterQuery& query = {}) {
  return storage::register_html(engine::register_rows(farm, query),
                                storage::head_of(farm, query, ""));
}

}  // namespace

TEST_CASE("deliveries and disposals are lines of their own, and cells are no formulas") {
  const Pen pen = with_disposal();
  const std::string csv = storage::stock_csv(engine::stock_rows(pen.farm, {}, {}));
  CHECK(holds_text(csv,
                   "2026-08-14,received,\"Oxalic acid dihydrate, technical\",24-118,"
                   "2026-08-01,500000,Fold & Daughters,,R-31"));
  CHECK(holds_text(csv, ",10000,"));
  CHECK(holds_text(csv, ",12300,"));
  CHECK(holds_text(csv, "weighed again"));
  CHECK_FALSE(holds_text(csv, ",=swept"));
}

TEST_CASE("received less given less disposed of is left, to the tenth of a gram") {
  const Pen pen = with_disposal();
  const engine::Lot& lot = pen.farm.lots.at(kLot);
  // Given: 1 g to A1, A2 and A5, 5 g to A3; the setting of A6 was struck.
  CHECK(lot.used.mg == 8'000);
  CHECK(lot.disposed.mg == 12'300);
  CHECK(lot.left().mg == 500'000 - 8'000 - 12'300);
  const std::string html = html_of(pen.farm);
  for (const char* cell : {"500 g", "8 g", "12.3 g", "479.7 g"}) {
    INFO(std::string(cell));
    CHECK(holds_text(html, std::string(">") + "<bdi>" + cell + "</bdi>"));
  }
}

TEST_CASE("the register of one yard leaves the stock of the whole outfit out") {
  const Pen pen = with_disposal();
  engine::RegisterQuery query;
  query.yard = kYard;
  CHECK(holds_text(html_of(pen.farm), "Acid bought and disposed of"));
  CHECK_FALSE(holds_text(html_of(pen.farm, query), "Acid bought and disposed of"));
}

TEST_CASE("a corrected setting stands twice: struck with its reason, and as it should have been") {
  Pen pen = evening();
  engine::EntryRef third;
  engine::VaporizerSet set;
  for (const engine::Entry& e : pen.farm.log)
    if (const auto* s = std::get_if<engine::VaporizerSet>(&e.event.body);
        s != nullptr && s->colony == colony(3))
      third = e.event.ref, set = *s;
  set.dose = {2000};
  const engine::EntryRef by =
      pen.write(engine::EntryCorrected{third, "read wrong", engine::Replacement{set}});
  const std::string html = html_of(pen.farm);
  CHECK(holds_text(html, "STRUCK, CORRECTED"));
  CHECK(holds_text(html, "read wrong"));
  CHECK(holds_text(html, "Entry " + engine::short_ref(by) + " holds in its place."));
  CHECK(holds_text(html, "It corrects entry " + engine::short_ref(third) + "."));
  CHECK_FALSE(holds_text(html, "OVER THE LABEL</span><br>OVER"));
  const auto rows = engine::register_rows(pen.farm, {});
  const std::string csv = storage::register_csv(rows, {});
  CHECK(holds_text(csv, engine::short_ref(by)));
  CHECK_FALSE(storage::register_pdf(rows, storage::head_of(pen.farm, {}, "")).empty());
}

TEST_CASE("what was entered late says when it happened and when it was entered") {
  Pen pen = evening();
  engine::EnteredLate late;
  late.walk = id<engine::WalkId>(40);
  late.yard = kYard;
  late.colony = colony(7);
  late.on = date(2026, 8, 10);
  late.minute = 20 * 60 + 5;
  late.rules = rules();
  late.dose = {1000};
  late.reason = "3 mites in 100 bees";
  pen.write(late);
  const std::string html = html_of(pen.farm);
  CHECK(holds_text(html, "2026-08-10<br>20:05"));
  CHECK(holds_text(html, "entered late"));
  CHECK(holds_text(html, "Entered on 2026-08-14 at "));
}

}  // namespace stock_test
