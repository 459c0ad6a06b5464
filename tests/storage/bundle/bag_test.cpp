// Writing a bundle: its form, its name, twice the same, and what is left of interrupted writes.
#include "storage/bundle/bag.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include "tests/support/bag_fixture.h"

namespace bag_test {

using namespace bags;
using engine::Code;
using storage::BagRequest;
using storage::write_bag;

TEST_CASE("sha256sum agrees with the manifest and the tag manifest of a bundle") {
  const TempFolder t;
  const auto done = write_bag(evening(t.path()));
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  const std::string bag = done.value().folder;
  CHECK(outside_agrees(bag, "manifest-sha256.txt"));
  CHECK(outside_agrees(bag, "tagmanifest-sha256.txt"));
  CHECK(names_in(t.path()) == std::vector<std::string>{done.value().name});
  CHECK(names_in(bag) == std::vector<std::string>{"bag-info.txt", "bagit.txt", "data",
                                                  "manifest-sha256.txt", "tagmanifest-sha256.txt"});
}

TEST_CASE("a bundle's text files have the form of RFC 8493") {
  const TempFolder t;
  const auto done = write_bag(evening(t.path()));
  REQUIRE(done.ok());
  const std::string bag = done.value().folder;
  // RFC 8493 section 2.1.1, exactly these two lines.
  CHECK(slurp(bag + "/bagit.txt") == "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
  // Section 2.2.2: Payload-Oxum is octets, a dot, the number of files.
  CHECK(slurp(bag + "/bag-info.txt") ==
        "Payload-Oxum: 300050.4\nBagging-Date: 2026-08-14\n"
        "Source-Organization: Thistle Bank Bees\n");
  CHECK(done.value().bytes == 300'050);
  CHECK(done.value().files == 4);
}

TEST_CASE("one byte cut from a payload file is seen by sha256sum and by check_bag") {
  const TempFolder t;
  const auto done = write_bag(evening(t.path()));
  REQUIRE(done.ok());
  const std::string file = done.value().folder + "/data/events.jsonl";
  std::filesystem::resize_file(file, std::filesystem::file_size(file) - 1);
  CHECK_FALSE(outside_agrees(done.value().folder, "manifest-sha256.txt"));
  const auto report = storage::check_bag(done.value().folder);
  REQUIRE(report.ok());
  CHECK_FALSE(report.value().whole());
  CHECK(report.value().verdict().code() == Code::Damaged);
}

TEST_CASE("the name is lower case, FAT-safe and changes with device, day and content only") {
  const BagRequest base = evening("/nowhere");
  const std::string name = storage::bag_name(base).value();
  CHECK(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos);
  CHECK(name.starts_with("duskwalk-2026-08-14-3f9a1c20-"));
  CHECK(name.size() == 45);
  BagRequest other = base;
  other.bagging_date = "2031-01-01";  // a wrong clock
  other.tags.clear();
  CHECK(storage::bag_name(other).value() == name);
  other.payload[1].bytes += "x";
  CHECK(storage::bag_name(other).value() != name);
  other = base;
  other.device_short = "3f9a1c21";
  CHECK(storage::bag_name(other).value() != name);
}

TEST_CASE("the same bundle twice is read again and nothing is written") {
  const TempFolder t;
  REQUIRE(write_bag(evening(t.path())).ok());
  BagRequest again = evening(t.path());
  again.bagging_date = "1970-01-01";
  struct stat before {
  }, after{};
  const std::string info = t.path() + "/" + storage::bag_name(again).value() + "/bag-info.txt";
  REQUIRE(::stat(info.c_str(), &before) == 0);
  const auto second = write_bag(again);
  REQUIRE(second.ok());
  CHECK(second.value().already_there);
  CHECK(second.value().say.starts_with("already there"));
  REQUIRE(::stat(info.c_str(), &after) == 0);
  CHECK(before.st_ino == after.st_ino);
  CHECK(before.st_mtim.tv_nsec == after.st_mtim.tv_nsec);
  CHECK(names_in(t.path()).size() == 1);
}

TEST_CASE("a damaged bundle is left alone and a whole one is written beside it") {
  const TempFolder t;
  const auto first = write_bag(evening(t.path()));
  REQUIRE(first.ok());
  spill(first.value().folder + "/data/day.csv", "torn");
  const auto second = write_bag(evening(t.path()));
  REQUIRE(second.ok());
  CHECK(second.value().name == first.value().name + "-2");
  CHECK(second.value().say.find("was left alone (data/day.csv") != std::string::npos);
  CHECK(slurp(first.value().folder + "/data/day.csv") == "torn");
  CHECK(storage::check_bag(second.value().folder).value().whole());
  const auto third = write_bag(evening(t.path()));
  REQUIRE(third.ok());
  CHECK(third.value().already_there);
  CHECK(third.value().name == second.value().name);
}

TEST_CASE("a whole bundle of other content under our name does not count as ours") {
  const TempFolder t;
  BagRequest other = evening(t.path());
  other.payload[0].bytes = "{}\n";
  const auto wrong = write_bag(other);
  REQUIRE(wrong.ok());
  const std::string ours = storage::bag_name(evening(t.path())).value();
  std::filesystem::rename(wrong.value().folder, t.path() + "/" + ours);
  const auto done = write_bag(evening(t.path()));
  REQUIRE(done.ok());
  CHECK(done.value().name == ours + "-2");
}

TEST_CASE("nine damaged copies do not stop a whole one") {
  const TempFolder t;
  const std::string name = storage::bag_name(evening(t.path())).value();
  spill(t.path() + "/" + name + "/bagit.txt", "?");
  for (int i = 2; i <= 9; ++i)
    spill(t.path() + "/" + name + "-" + std::to_string(i) + "/bagit.txt", "?");
  const auto done = write_bag(evening(t.path()));
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  CHECK(done.value().name == name + "-10");
  CHECK(storage::check_bag(done.value().folder).value().whole());
  CHECK(names_in(t.path()).size() == 10);
}

TEST_CASE("left-over parts of this device go, everything else on the stick stays") {
  const TempFolder t;
  const std::string stays[] = {".part-duskwalk-2026-08-13-aaaa0000-11", ".part-other",
                               ".part-duskwalk-2026-08-13-3f9a1c201-11", "holiday"};
  for (const std::string& name : stays) spill(t.path() + "/" + name + "/data/x", "x");
  spill(t.path() + "/.part-duskwalk-2026-08-13-3f9a1c20-0011/data/deep/x", "x");
  spill(t.path() + "/.part-" + storage::bag_name(evening("/p")).value() + "/bagit.txt", "x");
  const auto done = write_bag(evening(t.path()));
  REQUIRE(done.ok());
  CHECK(names_in(t.path()).size() == 5);
  for (const std::string& name : stays) CHECK(slurp(t.path() + "/" + name + "/data/x") == "x");
}

namespace {

const std::string kLeftOver = ".part-duskwalk-2026-08-13-3f9a1c20-0011";

// The store's folder on the tablet, which no write to a stick may touch.
void spill_store(const std::string& folder) {
  spill(folder + "/farm.journal", "all that was ever entered");
  spill(folder + "/data/farm.backup", "and its copy");
}

void check_store(const std::string& folder) {
  CHECK(slurp(folder + "/farm.journal") == "all that was ever entered");
  CHECK(slurp(folder + "/data/farm.backup") == "and its copy");
}

}  // namespace

TEST_CASE("a link named like a left-over is not followed, not removed, and named") {
  const TempFolder t, safe;
  spill_store(safe.path());
  std::filesystem::create_directory_symlink(safe.path(), t.path() + "/" + kLeftOver);
  const auto done = write_bag(evening(t.path()));
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  check_store(safe.path());
  CHECK(std::filesystem::is_symlink(t.path() + "/" + kLeftOver));
  CHECK_MESSAGE(done.value().say.find(kLeftOver + " was left alone") != std::string::npos,
                done.value().say);
}

TEST_CASE("links named like the bundle and its unfinished folder do not lead the write elsewhere") {
  const TempFolder t, safe;
  spill_store(safe.path());
  const std::string name = storage::bag_name(evening("/p")).value();
  for (const std::string& link : {name, ".part-" + name, ".part-" + name + "-2"})
    std::filesystem::create_directory_symlink(safe.path(), t.path() + "/" + link);
  const auto done = write_bag(evening(t.path()));
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  CHECK(done.value().name == name + "-2");
  CHECK_FALSE(std::filesystem::is_symlink(done.value().folder));
  CHECK(storage::check_bag(done.value().folder).value().whole());
  check_store(safe.path());
  CHECK(names_in(safe.path()).size() == 2);
}

TEST_CASE("what no write of ours leaves stays, however it is called") {
  struct Foreign {
    std::string name;
    std::function<void(const std::string& part)> make;
  };
  const TempFolder safe;
  spill_store(safe.path());
  const Foreign table[] = {
      {"a link for data",
       [&](const std::string& part) {
         std::filesystem::create_directory(part);
         std::filesystem::create_directory_symlink(safe.path(), part + "/data");
       }},
      {"a link in data",
       [&](const std::string& part) {
         spill(part + "/data/day.csv", "x");
         std::filesystem::create_directory_symlink(safe.path(), part + "/data/maps");
       }},
      {"a file", [](const std::string& part) { spill(part, "x"); }},
      {"a store", [](const std::string& part) { spill_store(part); }},
      {"a pipe",
       [](const std::string& part) {
         spill(part + "/data/day.csv", "x");
         REQUIRE(::mkfifo((part + "/data/pipe").c_str(), 0600) == 0);
       }},
  };
  for (const Foreign& row : table) {
    INFO(row.name);
    const TempFolder t;
    row.make(t.path() + "/" + kLeftOver);
    const auto done = write_bag(evening(t.path()));
    REQUIRE_MESSAGE(done.ok(), done.status().message());
    CHECK(names_in(t.path()) == std::vector<std::string>{kLeftOver, done.value().name});
    if (std::filesystem::exists(t.path() + "/" + kLeftOver + "/data"))
      CHECK_FALSE(names_in(t.path() + "/" + kLeftOver + "/data").empty());
    check_store(safe.path());
  }
}

TEST_CASE("a folder that becomes a link in the middle of a write leads nothing elsewhere") {
  // Whoever else writes to the exchange folder puts a link in the place of a folder of ours, before
  // each of our operations in turn.
  int all = 0;
  for (int n = 1; n == 1 || n <= all; ++n) {
    INFO("before operation " << n);
    const TempFolder t, safe;
    spill_store(safe.path());
    WatchedFiles files([&](int now) {
      if (now != n) return 0;
      for (const std::string& name : names_in(t.path()))
        for (const std::string& folder : {t.path() + "/" + name + "/data", t.path() + "/" + name}) {
          std::error_code none;
          std::filesystem::rename(folder, folder + ".away", none);
          if (!none) std::filesystem::create_directory_symlink(safe.path(), folder, none);
          if (!none) return 0;
        }
      return 0;
    });
    (void)write_bag(files, evening(t.path()));
    all = files.count();
    check_store(safe.path());
    CHECK(names_in(safe.path()).size() == 2);
    CHECK(names_in(safe.path() + "/data").size() == 1);
  }
}

TEST_CASE("progress counts up to the same total in both passes") {
  const TempFolder t;
  std::uint64_t last[3] = {0, 0, 0}, total = 0;
  const auto done = write_bag(evening(t.path()), [&](const storage::BagProgress& p) {
    auto& mark = last[static_cast<int>(p.step)];
    CHECK(p.done >= mark);
    mark = p.done;
    total = p.total;
  });
  REQUIRE(done.ok());
  CHECK(total > 300'000);
  for (const std::uint64_t mark : last) CHECK(mark == total);
}

namespace {

struct BadRequest {
  std::string name, want;
  std::function<void(BagRequest&)> spoil;
};
const BadRequest kBadRequests[] = {
    {"no payload", "no file", [](BagRequest& r) { r.payload.clear(); }},
    {"climbing path", "named ..", [](BagRequest& r) { r.payload[0].path = "../x"; }},
    {"absolute path", "empty part", [](BagRequest& r) { r.payload[0].path = "/etc/x"; }},
    {"device name", "devices", [](BagRequest& r) { r.payload[0].path = "maps/Aux.csv"; }},
    {"twice on FAT", "comes twice", [](BagRequest& r) { r.payload[0].path = "DAY.csv"; }},
    {"file and folder", "both", [](BagRequest& r) { r.payload[0].path = "Maps"; }},
    {"folder two ways", "two ways", [](BagRequest& r) { r.payload[0].path = "Maps/x"; }},
    {"day", "the day", [](BagRequest& r) { r.day = "14.8.2026"; }},
    {"month 13", "the day", [](BagRequest& r) { r.day = "2026-13-01"; }},
    {"bagging date", "bagging date", [](BagRequest& r) { r.bagging_date = ""; }},
    {"device in capitals", "device id", [](BagRequest& r) { r.device_short = "3F9A1C20"; }},
    {"device climbs", "device id", [](BagRequest& r) { r.device_short = "../../x"; }},
    {"tag with a line end", "line end",
     [](BagRequest& r) {
       r.tags = {{"A", "b\nC: d"}};
     }},
    {"own tag", "by itself",
     [](BagRequest& r) {
       r.tags = {{"payload-oxum", "1.1"}};
     }},
};

}  // namespace

TEST_CASE("a request that cannot become a bundle names the reason and touches nothing") {
  for (const BadRequest& row : kBadRequests) {
    INFO(row.name);
    const TempFolder t;
    BagRequest r = evening(t.path());
    row.spoil(r);
    const auto done = write_bag(r);
    CHECK(done.status().code() == Code::BadInput);
    CHECK_MESSAGE(done.status().message().find(row.want) != std::string::npos,
                  done.status().message());
    CHECK(names_in(t.path()).empty());
  }
}

TEST_CASE("a stick that is not there is named, and the tablet's own disk is never written") {
  const TempFolder t;
  const auto missing = write_bag(evening(t.path() + "/STICK"));
  CHECK(missing.status().code() == Code::NotFound);
  CHECK(missing.status().message().find("STICK is not there") != std::string::npos);
  BagRequest pulled = evening(t.path());
  pulled.device = 0xfffffffe;  // the stick's; what lies under the folder now is another medium
  CHECK(write_bag(pulled).status().code() == Code::Gone);
  CHECK(names_in(t.path()).empty());
}

TEST_CASE("a folder reached through a link takes a bundle") {
  const TempFolder t;
  std::filesystem::create_directory(t.path() + "/real");
  std::filesystem::create_directory_symlink(t.path() + "/real", t.path() + "/link");
  const auto done = write_bag(evening(t.path() + "/link"));
  REQUIRE(done.ok());
  CHECK(storage::check_bag(t.path() + "/real/" + done.value().name).value().whole());
}

}  // namespace bag_test
