#include "storage/bundle/bundle_reader.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "storage/bundle/bag.h"
#include "storage/journal/events_jsonl.h"
#include "tests/support/store_fixture.h"

namespace bundle_reader_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

std::vector<storage::Sealed> sealed(std::int64_t last) {
  std::vector<storage::Sealed> all;
  for (const storage::Record& r : records(1, last))
    all.push_back(storage::seal(r, all.empty() ? storage::Hash{} : all.back().hash));
  return all;
}

}  // namespace

TEST_CASE("every bundle below the folders is found, and each entry comes once, in order") {
  const Folder folder;
  const auto all = sealed(6);
  bundle_in(folder / "stick/deep/er", {all[3], all[4], all[5]});
  bundle_in(folder / "stick", {all[4], all[1], all[0]});
  bundle_in(folder / "office", {all[2]});
  const auto intake = storage::read_bundles({folder / "stick/", folder / "office"});
  REQUIRE(intake.ok());
  CHECK(intake.value().bundles == 3);
  CHECK(intake.value().whole == 3);
  CHECK(intake.value().lines.empty());
  CHECK(intake.value().events == all);
}

TEST_CASE("of a damaged bundle the whole entries are read, and the damage is named") {
  const Folder folder;
  const auto all = sealed(6);
  const std::string events = bundle_in(folder / "stick", all) + "/data/events.jsonl";
  std::fstream file(events, std::ios::in | std::ios::out | std::ios::binary);
  file.seekp(30);
  file.put('#');
  file.close();
  const auto intake = storage::read_bundles({folder / "stick"});
  REQUIRE(intake.ok());
  CHECK(intake.value().whole == 0);
  CHECK(intake.value().events == std::vector(all.begin() + 1, all.end()));
  REQUIRE(intake.value().lines.size() == 2);
  CHECK(intake.value().lines[0].find("SHA-256 differs") != std::string::npos);
  CHECK(intake.value().lines[1].find("line 1 of events.jsonl") != std::string::npos);
}

TEST_CASE("a bundle that is being written is left alone, and no link is followed") {
  const Folder folder;
  const std::string whole = bundle_in(folder / "stick", sealed(2));
  fs::rename(whole, folder / "stick/.part-duskwalk");
  fs::create_directory_symlink(folder / "stick/.part-duskwalk", folder / "stick/link");
  const auto intake = storage::read_bundles({folder / "stick"});
  REQUIRE(intake.ok());
  CHECK(intake.value().bundles == 0);
  CHECK(storage::read_bundles({folder / "none"}).status().code() == engine::Code::NotFound);
}

}  // namespace bundle_reader_test
