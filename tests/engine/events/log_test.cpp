// What somebody holds of a log while the log lets go, changes and ends.
#include "engine/events/log.h"

#include "tests/support/evening.h"

namespace log_test {

using namespace evening;

namespace {

Event note(std::size_t n) {
  return {{device(), static_cast<std::int64_t>(n) + 1},
          at(static_cast<int>(n)),
          NoteWritten{yard(), {}, std::to_string(n)}};
}

Log notes(std::size_t count) {
  Log log;
  for (std::size_t n = 0; n < count; ++n) log.push_back(note(n));
  return log;
}

const std::string& text(const Entry& e) { return std::get<NoteWritten>(e.event.body).text; }

}  // namespace

TEST_CASE("an entry that is held stays as it was asked for, whatever becomes of the log") {
  constexpr std::size_t kPages = 70;  // more than the log keeps unpacked
  Log log = notes(kPages * Log::kPage);
  const EntryHandle held = log[3];
  for (std::size_t page = 0; page < kPages; ++page) CHECK(log[page * Log::kPage] != nullptr);
  log.let_go();
  CHECK(log[3] != held);  // unpacked anew
  CHECK(text(*log[3]) == "3");
  log.set_fallen(3, Refusal::NoSuchYard);
  CHECK(log[3]->fallen == Refusal::NoSuchYard);
  log.truncate(1);
  CHECK(log.size() == 1);
  CHECK(text(*held) == "3");
  CHECK(held->fallen == Refusal::None);
}

TEST_CASE("the last page's entries are held likewise while it grows and is changed") {
  Log log = notes(5);
  const EntryHandle held = log.back();
  log.set_struck(4, Struck{{device(), 9}, "wrong", at(9)});
  for (std::size_t n = 5; n < Log::kPage + 5; ++n) log.push_back(note(n));
  CHECK(text(*held) == "4");
  CHECK(held->counts());
  CHECK_FALSE(log[4]->counts());
}

TEST_CASE("going through a log meets each entry once, though somebody lets go meanwhile") {
  const Log log = notes(3 * Log::kPage + 1);
  std::size_t n = 0;
  for (const Entry& e : log) {
    log.let_go();
    CHECK(text(e) == std::to_string(n++));
  }
  CHECK(n == log.size());
}

}  // namespace log_test
