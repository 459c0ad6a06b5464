// append_bench FOLDER [EVENTS] -- how long from an event to "it is on the disk".
//
// Times Journal::append beside a plain write + fdatasync of the same bytes to a growing file, one
// after the other in the same run, so that both see the same disk and the same load. Prints
// microseconds. The clock is read here because measuring is this program's whole job.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "tests/support/journal_fixture.h"

namespace {

template <class Work>
double microseconds(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start)
      .count();
}

void print(const std::string& name, std::vector<double> times) {
  std::sort(times.begin(), times.end());
  const auto at = [&](std::size_t percent) { return times[(times.size() - 1) * percent / 100]; };
  fmt::print("{:<28} median {:8.0f}   p90 {:8.0f}   p99 {:8.0f}   max {:8.0f} us\n", name, at(50),
             at(90), at(99), times.back());
}

storage::Record small_event(std::int64_t n) {
  storage::Record r = fixture::record(1);
  r.seq = n;
  r.body = R"({"colony":"B3","grams":2,"vaporizer":"wand 1"})";
  return r;
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 2) return std::fprintf(stderr, "usage: append_bench FOLDER [EVENTS]\n"), 2;
  const std::filesystem::path folder = arguments[1];
  const std::int64_t events = count > 2 ? std::atoll(arguments[2]) : 2000;
  storage::JournalOptions options;
  options.device = fixture::kTablet;
  auto journal = storage::Journal::open((folder / "bench.store").string(), options);
  const int raw = ::open((folder / "bench.raw").c_str(),
                         O_WRONLY | O_CREAT | O_TRUNC | O_APPEND | O_CLOEXEC, 0644);
  if (!journal.ok() || raw < 0 || journal.value().size() != 0) {
    std::fprintf(stderr, "append_bench: needs a folder without bench.store in it. %s\n",
                 journal.status().message().c_str());
    return 1;
  }
  std::vector<double> appended, written;
  bool good = true;
  for (std::int64_t n = 1; n <= events && good; ++n) {
    const storage::Record event = small_event(n);
    const std::string line = storage::canonical(event) + "\n";
    appended.push_back(microseconds([&] { good = good && journal.value().append(event).ok(); }));
    written.push_back(microseconds([&] {
      good = good && ::write(raw, line.data(), line.size()) == static_cast<ssize_t>(line.size()) &&
             ::fdatasync(raw) == 0;
    }));
  }
  ::close(raw);
  if (!good) return std::fprintf(stderr, "append_bench: the disk refused.\n"), 1;
  print("append, durable", std::move(appended));
  print("write + fdatasync", std::move(written));
  return 0;
}
