#include <doctest/doctest.h>

#include "storage/register/pdf_flow.h"
#include "storage/register/register_files.h"
#include "tests/support/payload_fixture.h"

namespace register_pdf_test {

using namespace fixture;

namespace {

// Which block stands on which sheet: "head a b | head c".
std::string sheets_of(const std::vector<std::pair<std::string, storage::FlowBlock>>& list,
                      const storage::FlowBlock* head = nullptr) {
  std::string seen;
  storage::Paper paper({});
  std::vector<storage::FlowBlock> blocks;
  for (const auto& [name, block] : list) {
    blocks.push_back(block);
    blocks.back().draw = [&seen, word = name](double) { seen += word + " "; };
    if (block.head != nullptr) blocks.back().head = head;
  }
  storage::flow(paper, blocks, [&](std::size_t, std::size_t) { seen += "| "; });
  return seen;
}

}  // namespace

TEST_CASE("blocks go to the next sheet whole, headings with what they head") {
  const double half = storage::kBodyHigh / 2;
  CHECK(sheets_of({{"a", {half}}, {"b", {half}}, {"c", {1}}}) == "a b | c | ");
  CHECK(sheets_of({{"a", {half}}, {"b", {half + 1}}}) == "a | b | ");
  CHECK(sheets_of({{"a", {half}}, {"title", {10, {}, true}}, {"b", {half}}}) == "a | title b | ");
}

TEST_CASE("a table's head stands on each sheet that the table is on") {
  storage::FlowBlock head{10};
  std::string ignored;
  head.draw = [&](double) { ignored += "head"; };
  const double third = storage::kBodyHigh / 3;
  CHECK(sheets_of({{"a", {third, {}, false, &head}},
                   {"b", {third, {}, false, &head}},
                   {"c", {third, {}, false, &head}},
                   {"d", {third}}},
                  &head) == "a b | c d | ");
  CHECK(ignored == "headhead");
}

TEST_CASE("names cannot become markup") {
  CHECK(storage::markup_escaped("<b>&\r\n\t\x07") == "&lt;b&gt;&amp;\xEF\xBF\xBD  \xEF\xBF\xBD");
  CHECK(storage::markup_name("") == "");
  CHECK(storage::markup_name("A1") ==
        "\xE2\x81\xA8"
        "A1"
        "\xE2\x81\xA9");
}

TEST_CASE("the same register gives the same document, to the byte") {
  const engine::Farm farm = hostile_evening().farm;
  const auto rows = engine::register_rows(farm, {});
  const auto head = storage::head_of(farm, {}, "c0ffee");
  const std::string document = storage::register_pdf(rows, head);
  CHECK(document.starts_with("%PDF-1."));
  CHECK(document == storage::register_pdf(rows, head));
}

TEST_CASE("a colony with more rows than a sheet holds is still written whole") {
  std::vector<engine::RegisterRow> rows(200);
  for (auto& row : rows) row.colony_name = "A1";
  CHECK(storage::register_pdf(rows, {}).starts_with("%PDF-1."));
}

}  // namespace register_pdf_test
