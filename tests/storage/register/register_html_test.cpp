#include <doctest/doctest.h>

#include <map>

#include "storage/register/register_cells.h"
#include "storage/register/register_files.h"
#include "storage/text/html_text.h"
#include "tests/support/payload_fixture.h"

namespace register_html_test {

using namespace fixture;

namespace {

std::string page_of(const engine::Farm& farm, const engine::RegisterQuery& query = {}) {
  return storage::register_html(engine::register_rows(farm, query),
                                storage::head_of(farm, query, "c0ffee"));
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1)) ++n;
  return n;
}

}  // namespace

// The five characters with a meaning in HTML: WHATWG HTML, 13.3 and 13.5.
TEST_CASE("text cannot leave its place in the page") {
  CHECK(storage::html_escaped("<b a='1' c=\"2\">&") ==
        "&lt;b a=&#39;1&#39; c=&quot;2&quot;&gt;&amp;");
  CHECK(storage::html_escaped(std::string("a\0b\x1b", 4)) ==
        "a\xEF\xBF\xBD"
        "b\xEF\xBF\xBD");
  CHECK(storage::html_name("") == "");
  CHECK(storage::html_name("A1") == "<bdi>A1</bdi>");
}

TEST_CASE("a hostile colony name stays text") {
  const std::string page = page_of(hostile_evening().farm);
  CHECK(count(page, "<script") == 0);
  CHECK(count(page, "<img") == 0);
  CHECK(count(page, "&lt;script&gt;document.title=&#39;RAN&#39;") > 0);
}

TEST_CASE("hostile text in every field of a row and of the head stays text") {
  const std::string evil = "<script>x</script>";
  engine::RegisterRow r;
  r.walk = kWalk;
  for (std::string* field : {&r.yard_name, &r.colony_name, &r.label_product, &r.product,
                             &r.registration, &r.lot_code, &r.supplier, &r.receipt, &r.dose_text,
                             &r.note, &r.operator_name, &r.operator_address, &r.reason})
    *field = evil;
  r.mishaps.push_back({{}, engine::MishapKind::Spill, evil, {}});
  r.struck = engine::Struck{{}, evil, {}};
  engine::RegisterRow other = r;
  other.walk.reset();
  storage::RegisterHead head;
  head.yard = head.exported_by = head.journal_head = evil;
  const std::string page = storage::register_html({r, other}, head);
  CHECK(count(page, "<script") == 0);
  CHECK(count(page, "&lt;script&gt;") >= 15);
}

TEST_CASE("struck entries stand in the page, lined through and in words, with the reason") {
  const std::string page = page_of(evening().farm);
  CHECK(count(page, ">STRUCK<") == 1);
  CHECK(count(page, "<s>") > 0);
  CHECK(count(page, "tapped the wrong hive") == 1);
}

TEST_CASE("what goes against the label is marked in words") {
  const std::string page = page_of(evening().farm);
  CHECK(count(page, "OVER THE LABEL") == 1);
  CHECK(count(page, "SUPERS ON") == 1);
  CHECK(count(page, "The label in your hand decides.") == 1);
}

TEST_CASE("the head says period, yard, who, as of when, from when complete, and the journal") {
  const std::string page = page_of(evening().farm, {date(2026, 8, 1), date(2026, 8, 31), kYard});
  for (const std::string want :
       {"<bdi>Thistle Bank</bdi>, 2026-08-01 to 2026-08-31", "Exported by</dt><dd><bdi>Wren Aldous",
        "2026-08-14T19:", "Complete from</dt><dd>2026-08-14", "c0ffee"}) {
    INFO(want);
    CHECK(count(page, want) == 1);
  }
}

TEST_CASE("the page fetches nothing and runs nothing") {
  const std::string page = page_of(evening().farm);
  for (const std::string no :
       {"http://", "https://", "src=", "url(", "@import", "<script", "<link rel=\"style"}) {
    INFO(no);
    CHECK(count(page, no) == 0);
  }
  CHECK(count(page, "default-src 'none'") == 1);
}

TEST_CASE("ounces and Fahrenheit stand beside grams and Celsius, not in their place") {
  const std::string page = page_of(hostile_evening().farm);
  CHECK(count(page, "1 g dihydrate<br>(0.035 oz)") > 0);
  CHECK(count(page, "12.5 °C") == 1);
  CHECK(count(page, "(55 °F)") == 1);
}

TEST_CASE("a product of unknown strength says so, and a known one gives its dihydrate") {
  engine::RegisterRow r;
  r.dose = engine::Mass{4000};
  r.basis = engine::Basis::Product;
  CHECK(count(storage::register_html({r}, {}), "strength not entered") == 1);
  r.dihydrate_equal = engine::Mass{2000};
  r.anhydrous_equal = engine::Mass{1428};
  const std::string page = storage::register_html({r}, {});
  CHECK(count(page, "strength not entered") == 0);
  CHECK(count(page, "= 2 g dihydrate") == 1);
  CHECK(count(page, "= 1.428 g anhydrous") == 1);
}

TEST_CASE("a register without rows says so") {
  CHECK(count(page_of({}), "No treatments in this period.") == 1);
}

TEST_CASE("the report counts a walk's colonies as the end of the walk does") {
  const engine::Farm farm = hostile_evening().farm;
  engine::WalkTotals walks;
  for (const auto& [id, walk] : farm.walks)
    for (const engine::Stop& stop : walk.stops)
      // Colonies still to do in an open walk have no row yet.
      if (walk.closed || stop.phase != engine::Phase::ToDo) walks.add(outcome_of(walk, stop));
  REQUIRE(walks.sum() > 3);
  std::map<std::string, std::size_t> sums;
  for (const storage::RegisterSum& s : storage::sums_of(engine::register_rows(farm, {})))
    sums[s.what] = s.number;
  CHECK(sums["treated"] == walks.treated);
  CHECK(sums["treated, again"] == walks.come_back);
  CHECK(sums["passed over"] == walks.passed_over);
  CHECK(sums["not reached"] == walks.not_reached);
  CHECK(sums["under way"] == walks.under_way);
}

}  // namespace register_html_test
