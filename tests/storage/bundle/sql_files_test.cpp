#include "storage/bundle/sql_files.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "storage/store/event_json.h"
#include "tests/support/bag_fixture.h"
#include "tests/support/journal_fixture.h"

namespace sql_files_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

// A store of an earlier version: it took in what is refused today.
storage::Store store_with(const Folder& folder, const std::vector<engine::Body>& bodies) {
  const engine::DeviceId other{*engine::uuid_from_text(kOther)};
  {
    auto journal = storage::Journal::open(folder / "farm.journal", small());
    REQUIRE(journal.ok());
    std::vector<storage::Sealed> all;
    for (const engine::Body& body : bodies) {
      const auto seq = static_cast<std::int64_t>(all.size()) + 1;
      all.push_back(storage::seal(storage::to_record({{other, seq}, {}, body}),
                                  all.empty() ? storage::Hash{} : all.back().hash));
    }
    REQUIRE(journal.value().adopt_all(all).ok());
  }
  auto store = storage::Store::open(folder / "farm.journal", small());
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

std::string content(const Folder& folder, const std::string& file) {
  return bags::slurp(folder / ("tables/" + file));
}

}  // namespace

// PostgreSQL manual, "JSON Types": jsonb refuses \u0000; "Date/Time Types": there is no year 0.
TEST_CASE(
    "what PostgreSQL does not read is left out of the tables, so that load.sql goes through") {
  const Folder folder;
  engine::StockReceived lot;
  lot.lot = {engine::uuid_v7(1, 1, 1)};
  lot.product = std::string("oxalic\0acid", 11);
  lot.amount = engine::Mass{1000};
  lot.code = "a back\\slash u0000";
  lot.expiry = engine::Date{std::chrono::year{0}, std::chrono::month{6}, std::chrono::day{30}};
  const engine::NoteWritten note{{}, {}, std::string("\\\0\\u0000", 8)};
  storage::Store store = store_with(folder, {lot, note});
  const auto written = storage::write_sql(store, folder / "tables");
  REQUIRE_MESSAGE(written.ok(), written.status().message());
  CHECK(written.value().entries == 2);
  CHECK(content(folder, "lot.copy").find("\toxalicacid\t") != std::string::npos);
  CHECK(content(folder, "lot.copy").find("0000-06-30") == std::string::npos);
  // The body is the fifth column; behind it stands the event as it was hashed, as plain text.
  const std::string entry = content(folder, "entry.copy");
  CHECK(entry.find(R"("product":"oxalicacid")") != std::string::npos);
  CHECK(entry.find(R"("text":"\\\\\\\\u0000")") != std::string::npos);
}

TEST_CASE("asked to stop, or failing, it leaves no file and no folder") {
  const Folder folder;
  storage::Store store = store_with(folder, {engine::NoteWritten{{}, {}, "dry"}});
  int asked = 0;
  const auto stopped =
      storage::write_sql(store, folder / "tables", {}, [&] { return ++asked > 3; });
  CHECK(stopped.status().message().find("stopped") != std::string::npos);
  CHECK_FALSE(fs::exists(folder / "tables"));
  bags::spill(folder / "tables/lot.copy", "mine");
  CHECK(storage::write_sql(store, folder / "tables").status().code() == storage::Code::BadInput);
  CHECK(bags::names_in(folder / "tables") == std::vector<std::string>{"lot.copy"});
}

}  // namespace sql_files_test
