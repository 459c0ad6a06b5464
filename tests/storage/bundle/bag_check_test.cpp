// Reading a bundle that somebody else may have made, changed or crafted.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include "tests/support/bag_fixture.h"

namespace bag_check_test {

using namespace bags;
using engine::Code;
using storage::check_bag;

namespace {

// A good bundle; `seal` writes tag files anew after a hand changed one, so that only the change
// under test is wrong.
struct Bundle {
  TempFolder t;
  std::string at;
  Bundle() : at(storage::write_bag(evening(t.path())).value().folder) {}

  void seal() const {
    const std::string command = "cd '" + at +
                                "' && sha256sum bagit.txt bag-info.txt manifest-sha256.txt"
                                " >tagmanifest-sha256.txt";
    REQUIRE(::system(command.c_str()) == 0);
  }
  void append(const std::string& file, const std::string& text) const {
    spill(at + "/" + file, slurp(at + "/" + file) + text);
  }
  [[nodiscard]] std::string problems() const {
    const auto report = check_bag(at);
    if (!report.ok()) return report.status().message();
    std::string all;
    for (const std::string& line : report.value().problems.lines()) all += line + "\n";
    return all;
  }
};

const std::string kZero(64, '0');

}  // namespace

TEST_CASE("a good bundle is whole, and the report says what is in it") {
  const Bundle b;
  const auto report = check_bag(b.at + "/");
  REQUIRE(report.ok());
  CHECK(report.value().whole());
  CHECK(report.value().verdict().ok());
  CHECK(report.value().bytes == 300'050);
  REQUIRE(report.value().payload.size() == 4);
  CHECK(report.value().payload[0].path == "data/day.csv");
  CHECK(report.value().payload[0].bytes == 30);
  CHECK(report.value().tags[2].second == "Thistle Bank Bees");
  CHECK(report.value().notes.empty());
  CHECK(b.at.ends_with(report.value().name));
}

namespace {

struct Damage {
  std::string name, want;
  std::function<void(const Bundle&)> spoil;
};
namespace fs = std::filesystem;
const Damage kDamages[] = {
    {"changed", "data/day.csv is not what was written",
     [](const Bundle& b) { b.append("data/day.csv", "x"); }},
    {"missing", "data/notes.txt is missing",
     [](const Bundle& b) { fs::remove(b.at + "/data/notes.txt"); }},
    {"extra", "data/maps/more.txt is extra",
     [](const Bundle& b) { spill(b.at + "/data/maps/more.txt", "x"); }},
    {"no data", "data/day.csv is missing", [](const Bundle& b) { fs::remove_all(b.at + "/data"); }},
    {"declaration changed", "bagit.txt is not what was written",
     [](const Bundle& b) { b.append("bagit.txt", "\n"); }},
    {"no declaration", "bagit.txt is missing",
     [](const Bundle& b) { fs::remove(b.at + "/bagit.txt"); }},
    {"no manifest", "manifest-sha256.txt is missing",
     [](const Bundle& b) { fs::remove(b.at + "/manifest-sha256.txt"); }},
    {"no tag manifest", "tagmanifest-sha256.txt is missing",
     [](const Bundle& b) { fs::remove(b.at + "/tagmanifest-sha256.txt"); }},
    {"tag manifest emptied", "does not list bagit.txt",
     [](const Bundle& b) { spill(b.at + "/tagmanifest-sha256.txt", ""); }},
    {"a link for a file", "(a link is never followed): data/notes.txt",
     [](const Bundle& b) {
       fs::remove(b.at + "/data/notes.txt");
       fs::create_symlink("/dev/null", b.at + "/data/notes.txt");
     }},
    {"a pipe", "not a plain file",
     [](const Bundle& b) { REQUIRE(::mkfifo((b.at + "/data/pipe").c_str(), 0600) == 0); }},
};

}  // namespace

TEST_CASE("each kind of damage is found and named") {
  for (const Damage& row : kDamages) {
    INFO(row.name);
    const Bundle b;
    row.spoil(b);
    const std::string found = b.problems();
    CHECK_MESSAGE(found.find(row.want) != std::string::npos, found);
  }
}

TEST_CASE("a manifest that names paths outside is refused, and those are never opened") {
  for (const std::string path : {"../outside", "/etc/hostname", "data/../../outside", "~/x",
                                 "data/%2e%2e/%2e%2e/outside", "outside", "data\\..\\x"}) {
    INFO(path);
    const Bundle b;
    spill(b.t.path() + "/outside", "x");
    b.append("manifest-sha256.txt", kZero + "  " + path + "\n");
    b.seal();
    const std::string found = b.problems();
    CHECK_MESSAGE(found.find("SHA-256 differs") == std::string::npos, found);
    CHECK_MESSAGE(found.find("manifest-sha256.txt l") == 0, found);  // "line 5:" or "lists"
  }
}

TEST_CASE("a wrong, missing, doubled or absurd Payload-Oxum is a problem") {
  for (const std::string line :
       {"Payload-Oxum: 300050.5\n", "", "Payload-Oxum: 300050.4\nPayload-Oxum: 300050.4\n",
        "Payload-Oxum: many\n", "payload-oxum: 99999999999999999999999.4\n"}) {
    INFO(line);
    const Bundle b;
    spill(b.at + "/bag-info.txt", line);
    b.seal();
    CHECK_MESSAGE(b.problems().find("Payload-Oxum") != std::string::npos, b.problems());
  }
}

TEST_CASE("huge tag files and lines are bounded") {
  const Bundle b;
  spill(b.at + "/bag-info.txt", std::string(20u << 20, 'x'));
  b.seal();
  CHECK(b.problems().find("bag-info.txt is too big") != std::string::npos);
  spill(b.at + "/bag-info.txt", std::string(1u << 20, 'x'));
  b.seal();
  CHECK(b.problems().find("line 1: the line is too long") != std::string::npos);
}

TEST_CASE("folders nested without end are bounded") {
  const Bundle b;
  std::string deep = b.at + "/data";
  for (int i = 0; i < 40; ++i) deep += "/d";
  spill(deep + "/x", "x");
  CHECK(b.problems().find("folders lie too deep") != std::string::npos);
}

TEST_CASE("fetch.txt is not taken; another loose file is noted and harms nothing") {
  const Bundle b;
  spill(b.at + "/.DS_Store", "x");
  const auto report = check_bag(b.at);
  REQUIRE(report.ok());
  CHECK(report.value().whole());
  REQUIRE(report.value().notes.size() == 1);
  CHECK(report.value().notes[0].starts_with(".DS_Store is listed nowhere"));
  spill(b.at + "/fetch.txt", "https://example.org/x 1 data/x\n");
  CHECK(b.problems().find("fetch.txt") == 0);
}

TEST_CASE("what is no bundle is told apart from a damaged one") {
  const TempFolder t;
  CHECK(check_bag(t.path() + "/none").status().code() == Code::NotFound);
  CHECK(check_bag(t.path()).status().code() == Code::NotFound);
  spill(t.path() + "/file", "x");
  CHECK(check_bag(t.path() + "/file").status().code() == Code::NotFound);
}

TEST_CASE("every flipped byte of every file in a bundle is noticed") {
  const Bundle b;
  for (const std::string file : {"bagit.txt", "bag-info.txt", "manifest-sha256.txt",
                                 "tagmanifest-sha256.txt", "data/day.csv", "data/events.jsonl"}) {
    const std::string good = slurp(b.at + "/" + file);
    for (std::size_t i = 0; i < good.size(); i += 3) {
      INFO(file << " byte " << i);
      std::string bad = good;
      bad[i] = static_cast<char>(bad[i] ^ 0x01);
      spill(b.at + "/" + file, bad);
      CHECK_FALSE(b.problems().empty());
    }
    spill(b.at + "/" + file, good);
  }
  CHECK(b.problems().empty());
}

}  // namespace bag_check_test
