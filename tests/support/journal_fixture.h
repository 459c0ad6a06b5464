// tests/support/journal_fixture.h -- invented records and folders for the tests of the journal.
#pragma once
#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "storage/journal/journal.h"

namespace fixture {

inline const std::string kTablet = "0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b";
inline const std::string kOther = "0191ffff-0000-7abc-8def-001122334455";
inline const std::string kThird = "01920000-1111-7abc-9def-665544332211";

// The n-th record of a tablet. Its text is made from n alone, so that a test knows what must be in
// the store; lengths differ, and now and then a body is larger than a database page.
inline storage::Record record(std::int64_t n, const std::string& device = kTablet) {
  const std::size_t pad = n % 23 == 0 ? 6000 : static_cast<std::size_t>(n * 37 % 290);
  const std::string note = fmt::format("Völkchen №{} \\\"北\\\" {}", n,
                                       std::string(pad, static_cast<char>('a' + n % 26)));
  storage::Record r;
  r.device = device;
  r.seq = n;
  r.at_utc_ms = 1'700'000'000'000 + n * 90'000;
  r.zone_offset_min = n % 2 == 0 ? 120 : -90;
  r.boot_id = "boot-1";
  r.since_boot_ms = n * 90'000;
  r.kind = "vaporizer_set";
  r.body = fmt::format(R"({{"colony":"B{}","grams":2.5,"note":"{}"}})", n % 9, note);
  return r;
}

inline std::vector<storage::Record> records(std::int64_t from, std::int64_t to,
                                            const std::string& device = kTablet) {
  std::vector<storage::Record> all;
  for (std::int64_t n = from; n <= to; ++n) all.push_back(record(n, device));
  return all;
}

// A folder of its own, gone with the object.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "journal-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) std::abort();
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string operator/(const std::string& name) const {
    return (path_ / name).string();
  }

 private:
  std::filesystem::path path_;
};

// Options for a small store: no ballast, so that thousands of them are quick.
inline storage::JournalOptions small(const std::string& device = kTablet) {
  storage::JournalOptions options;
  options.device = device;
  options.ballast_bytes = 0;
  return options;
}

inline std::vector<storage::Sealed> all_of(const storage::Journal& journal) {
  std::vector<storage::Sealed> events;
  const storage::Status read =
      journal.replay([&](const storage::Sealed& s) { events.push_back(s); });
  if (!read.ok()) events.clear();
  return events;
}

}  // namespace fixture
