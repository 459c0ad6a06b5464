// A program that does nothing but append and tell, made to be killed (kill_test.cpp).
//
// Argument: the store. After each durable append the event's number goes to standard output as
// eight bytes. Ends with 1 when the journal refuses.
#include <unistd.h>

#include <cstdio>

#include "storage/journal/journal_testing.h"
#include "tests/support/journal_fixture.h"

namespace {

bool tell(std::int64_t seq) { return ::write(STDOUT_FILENO, &seq, sizeof seq) == sizeof seq; }

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return 2;
  const storage::JournalTesting testing{false, 50};
  storage::JournalOptions options = fixture::small();
  options.testing = &testing;
  auto journal = storage::Journal::open(arguments[1], options);
  if (!journal.ok() || !journal.value().writable().ok()) {
    std::fprintf(stderr, "%s\n",
                 (journal.ok() ? journal.value().writable() : journal.status()).message().c_str());
    return 1;
  }
  if (!tell(journal.value().size())) return 1;  // what a screen would show from now on
  for (;;) {
    const std::int64_t next = journal.value().size() + 1;
    const storage::Status done = journal.value().append(fixture::record(next));
    if (!done.ok()) std::fprintf(stderr, "%s\n", done.message().c_str());
    if (!done.ok() || !tell(next)) return 1;
  }
}
