// Truncated files and flipped bits: every acknowledged event is there, or the report names it.
#include <doctest/doctest.h>

#include "storage/journal/journal_testing.h"
#include "tests/support/crash_judge.h"

namespace damage_test {

using namespace cut;
using storage::Journal;

namespace {

constexpr std::int64_t kEvents = 60;
const std::string kLog = kStore + "-wal";

// The disk of a store with all events in it: closed well, or killed with half of them in the log.
Files disk(bool killed) {
  Machine machine;
  Mount mount("cut", machine);
  const storage::JournalTesting testing{false, killed ? 60 : 1000};
  auto journal = Journal::open(kStore, on("cut", &testing));
  REQUIRE(journal.ok());
  for (std::int64_t n = 1; n <= kEvents; ++n) {
    REQUIRE(journal.value().append(fixture::record(n)).ok());
  }
  machine.dead = killed;
  { const Journal closed = std::move(journal).value(); }
  return machine.content();
}

struct Sum {
  int tried = 0, untouched = 0, all_readable = 0, some_missing = 0;
  std::int64_t missing_events = 0;
  std::vector<std::string> bad;
};

// What the report must be: readable and missing together are 1..kEvents, and replay gives exactly
// the readable ones as they were written.
std::string wrong_report(const Journal& journal) {
  const auto& report = *journal.damage();
  storage::SeqRanges readable, missing, all;
  if (report.readable.contains(fixture::kTablet)) readable = report.readable.at(fixture::kTablet);
  if (report.missing.contains(fixture::kTablet)) missing = report.missing.at(fixture::kTablet);
  all.add(storage::SeqRange{1, kEvents});
  if (!(all.without(readable) == missing) || report.readable.size() + report.missing.size() > 2) {
    return "the report does not add up: " + to_text(readable) + " / " + to_text(missing);
  }
  const auto events = fixture::all_of(journal);
  if (static_cast<std::int64_t>(events.size()) != readable.count()) return "replay differs";
  for (const storage::Sealed& s : events) {
    if (!(s == expected()[static_cast<std::size_t>(s.record.seq - 1)])) return "wrong content";
  }
  return report.line.find("damaged") == std::string::npos ? "no clear line" : "";
}

std::string wrong(const Machine& machine, const Files& before, Sum& sum) {
  const auto journal = Journal::open(kStore, on("cut"));
  if (!journal.ok()) return "refused: " + journal.status().message();
  if (!journal.value().damage()) {
    ++sum.untouched;
    return judge(journal.value(), kEvents, kEvents) == Verdict::Ok ? "" : "silent loss";
  }
  const auto& missing = journal.value().damage()->missing;
  ++(missing.empty() ? sum.all_readable : sum.some_missing);
  sum.missing_events += count(missing);
  if (machine.content() != before) return "a damaged store was written to";
  return wrong_report(journal.value());
}

void try_one(Mount& mount, const Files& files, const std::string& name, Sum& sum) {
  Machine machine;
  machine.load(files);
  mount.use(machine);
  ++sum.tried;
  const std::string why = wrong(machine, files, sum);
  if (!why.empty()) sum.bad.push_back(name + ": " + why);
}

void report(const std::string& name, const Sum& sum) {
  MESSAGE(name << ": " << sum.tried << " tried, " << sum.untouched << " whole, " << sum.all_readable
               << " damaged with all readable, " << sum.some_missing << " with missing ones ("
               << sum.missing_events << " named), " << sum.bad.size() << " bad");
  INFO((sum.bad.empty() ? std::string{} : sum.bad.front()));
  CHECK(sum.bad.empty());
}

struct Target {
  std::string name, file;
  bool killed;
};
const Target kTargets[] = {
    {"closed store", kStore, false}, {"store beside a log", kStore, true}, {"log", kLog, true}};
// Under the sanitizers fewer places are tried, but each kind of damage to each file is.
constexpr std::size_t kThin = kSanitized ? 23 : 1;
constexpr std::size_t kThinBits = kSanitized ? 41 : 1;
constexpr std::size_t kThinHead = kSanitized ? 11 : 1;  // of the first 120 bytes, the header

}  // namespace

TEST_CASE("a file cut at any length: the events are there or named, the bytes untouched") {
  for (const Target& target : kTargets) {
    Sum sum;
    Machine none;
    Mount mount("cut", none);
    const Files whole = disk(target.killed);
    const std::size_t size = whole.at(target.file).size();
    mount.use(none);
    for (std::size_t length = 0; length < size;
         length += length < 120 ? kThinHead : 307 * kThinBits) {
      Files files = whole;
      files[target.file].resize(length);
      try_one(mount, files, fmt::format("{} cut at {}", target.name, length), sum);
      files[target.file].resize(size);  // the tail is there, but empty
      try_one(mount, files, fmt::format("{} zeroed from {}", target.name, length), sum);
    }
    report(target.name + " truncated", sum);
    CHECK(sum.some_missing > 5);
  }
}

TEST_CASE("a flipped bit anywhere: the events are there or named, the bytes untouched") {
  for (const Target& target : kTargets) {
    Sum sum;
    Machine none;
    Mount mount("cut", none);
    const Files whole = disk(target.killed);
    const std::size_t size = whole.at(target.file).size();
    for (std::size_t at = 0; at < size; at += at < 120 ? kThinHead : 101 * kThinBits) {
      Files files = whole;
      char& byte = files[target.file][at];
      byte = static_cast<char>(byte ^ (1 << (at % 8)));
      try_one(mount, files, fmt::format("{} bit flipped at {}", target.name, at), sum);
    }
    report(target.name + " flipped", sum);
    CHECK(sum.some_missing + sum.all_readable > (kSanitized ? 2 : 20));
  }
}

TEST_CASE("blocks of zeros or noise: the events are there or named, the bytes untouched") {
  for (const Target& target : kTargets) {
    Sum sum;
    Random random(5);
    Machine none;
    Mount mount("cut", none);
    const Files whole = disk(target.killed);
    const std::size_t size = whole.at(target.file).size();
    for (int round = 0; round < static_cast<int>(200 / kThin); ++round) {
      Files files = whole;
      std::string& bytes = files[target.file];
      for (auto hits = random() % 3 + 1; hits > 0; --hits) {
        const std::size_t at = random() % (size / 512) * 512;
        for (std::size_t i = at; i < at + 512; ++i) {
          bytes[i] = round % 2 == 0 ? '\0' : static_cast<char>(random());
        }
      }
      try_one(mount, files, fmt::format("{} block round {}", target.name, round), sum);
    }
    report(target.name + " with broken blocks", sum);
  }
}

TEST_CASE("with the tip gone too, whatever is given is right, and nothing crashes") {
  for (const Target& target : kTargets) {
    Machine none;
    Mount mount("cut", none);
    Files whole = disk(target.killed);
    whole.erase(kStore + ".tip");
    const std::size_t size = whole.at(target.file).size();
    int given = 0;
    for (std::size_t at = 0; at < size; at += 397 * kThin) {
      Machine machine;
      Files files = whole;
      files[target.file][at] = static_cast<char>(files[target.file][at] ^ 0x10);
      if (at % 2 == 0) files[target.file].resize(at);
      machine.load(files);
      mount.use(machine);
      const auto journal = Journal::open(kStore, on("cut"));
      if (!journal.ok()) continue;
      ++given;
      for (const storage::Sealed& s : fixture::all_of(journal.value())) {
        REQUIRE(s == expected()[static_cast<std::size_t>(s.record.seq - 1)]);
      }
    }
    CHECK(given > 5);
  }
}

}  // namespace damage_test
