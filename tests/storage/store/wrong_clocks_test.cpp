// Stores of several tablets of which one has a wrong clock: one order everywhere, also after
// opening again and by a checkpoint, and the keeper is told whose clock it is.
#include "engine/words/wrong_clocks.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <memory>

#include "engine/farm/causality.h"
#include "engine/words/words.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace wrong_clocks_test {

using namespace fixture;

namespace {

engine::Stamp evening_at(int seconds) {
  return engine::after(*engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00"),
                       engine::Seconds{seconds});
}

engine::Stamp in_year(int year) {
  engine::Stamp s = evening_at(0);
  s.at += std::chrono::days{365 * (year - 2026)};
  return s;
}

const engine::YardId kYard = {{1}};

// Three tablets' stores in one folder. The middle one has the highest id: ties would go to it.
struct Outfit {
  std::shared_ptr<Folder> folder = std::make_shared<Folder>();
  std::array<std::string, 3> ids = {kTablet, kThird, kOther};
  std::int64_t checkpoint_from = 0;

  [[nodiscard]] storage::Store open(std::size_t i) const {
    storage::JournalOptions options = small(ids.at(i));
    options.checkpoint_from = checkpoint_from;
    auto store = storage::Store::open(*folder / (std::to_string(i) + ".journal"), options);
    REQUIRE_MESSAGE(store.ok(), store.status().message());
    return std::move(store).value();
  }
  void write(std::size_t i, const engine::Stamp& when, const engine::Body& body) const {
    storage::Store store = open(i);
    const auto done = store.append(store.next(when, body));
    REQUIRE_MESSAGE(done.ok(), done.message());
    // What is shown now is what a replay shows.
    const std::uint64_t shown = engine::state_hash(store.farm());
    store = open((i + 1) % 3);
    store = open(i);
    CHECK(engine::state_hash(store.farm()) == shown);
  }
  void name(std::size_t i, const engine::Stamp& when, const std::string& name) const {
    engine::YardChanged change;
    change.yard = kYard;
    change.name = name;
    write(i, when, change);
  }
  std::vector<std::string> read(std::size_t reader, std::size_t other) const {
    std::vector<storage::Sealed> all;
    REQUIRE(open(other).journal().replay([&](const auto& s) { all.push_back(s); }).ok());
    auto merged = open(reader).merge(std::move(all));
    REQUIRE_MESSAGE(merged.ok(), merged.status().message());
    return merged.value().lines;
  }
  void all_read() const {
    for (int round = 0; round < 2; ++round)
      for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t k = 0; k < 3; ++k)
          if (i != k) (void)read(i, k);
  }
  [[nodiscard]] std::string yard(std::size_t i) const {
    return open(i).farm().yards.at(kYard).name;
  }
};

Outfit started() {
  Outfit all;
  all.write(0, evening_at(0), engine::YardAdded{kYard, "Alder Bend", {}, "", ""});
  all.all_read();
  all.write(1, evening_at(1), engine::NoteWritten{{}, {}, "here"});
  all.write(2, evening_at(2), engine::NoteWritten{{}, {}, "here too"});
  all.all_read();
  return all;
}

}  // namespace

TEST_CASE("an entry of the year 9999 or 2031 does not decide which name is the last") {
  for (const int year : {2031, 9999}) {
    INFO(year);
    const Outfit all = started();
    all.name(0, in_year(year), "Wrong");
    (void)all.read(1, 0);
    all.name(1, evening_at(100), "First");
    all.name(2, evening_at(200), "Last");
    all.all_read();
    for (std::size_t i = 0; i < 3; ++i) CHECK(all.yard(i) == "Last");
    CHECK(engine::state_hash(all.open(0).farm()) == engine::state_hash(all.open(2).farm()));
  }
}

TEST_CASE("whose clock is wrong is said once, when its entry comes in, and by verify at any time") {
  const Outfit all = started();
  all.write(0, in_year(9999), engine::NoteWritten{{}, {}, "a clock gone wrong"});
  const auto lines = all.read(1, 0);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].find("says 999") != std::string::npos);
  CHECK(lines[0].find(engine::short_device(all.open(0).device())) != std::string::npos);
  CHECK(all.read(1, 0).empty());
  CHECK(all.open(1).wrong_clocks().size() == 1);
}

TEST_CASE("what was read is written before the next entry, by number, and only what is new") {
  const Outfit all = started();
  all.write(0, evening_at(50), engine::NoteWritten{{}, {}, "news"});
  (void)all.read(1, 0);
  all.write(1, evening_at(60), engine::NoteWritten{{}, {}, "one"});
  all.write(1, evening_at(61), engine::NoteWritten{{}, {}, "two"});
  const engine::Farm farm = all.open(1).farm();
  std::vector<engine::ClockFollowed> followed;
  const engine::DeviceId own = all.open(1).device(), other = all.open(0).device();
  farm.log.each<engine::ClockFollowed>([&](const engine::Entry& e) {
    if (e.event.ref.device == own)
      followed.push_back(std::get<engine::ClockFollowed>(e.event.body));
  });
  REQUIRE(followed.size() == 2);  // the first one before "here"
  REQUIRE(followed[1].read);
  const auto of_other = std::find_if(followed[1].read->begin(), followed[1].read->end(),
                                     [&](const auto& ref) { return ref.device == other; });
  REQUIRE(of_other != followed[1].read->end());
  CHECK(of_other->seq == farm.last_seq.at(other));
  const engine::Causality causality(farm);
  CHECK(causality.had_read({own, farm.last_seq.at(own)}, *of_other));
}

TEST_CASE("a checkpoint opens to the same order under a wrong clock, and goes on in it") {
  Outfit all = started();
  all.checkpoint_from = 1;
  all.name(0, in_year(2031), "Wrong");
  (void)all.read(1, 0), (void)all.read(2, 0);
  all.name(1, evening_at(100), "First");
  all.name(2, evening_at(200), "Last");
  all.all_read();
  const std::uint64_t by_checkpoint = engine::state_hash(all.open(1).farm());
  CHECK(all.open(1).wrong_clocks().size() == 1);
  all.checkpoint_from = 0;
  CHECK(engine::state_hash(all.open(1).farm()) == by_checkpoint);
  CHECK(all.yard(1) == "Last");
}

}  // namespace wrong_clocks_test
