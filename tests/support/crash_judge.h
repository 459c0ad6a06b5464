// tests/support/crash_judge.h -- the expected state, kept outside the store, and the verdict.
#pragma once
#include <string>
#include <vector>

#include "storage/journal/journal.h"
#include "tests/support/cut_vfs.h"
#include "tests/support/journal_fixture.h"

namespace cut {

// Under the sanitizers everything takes many times longer: fewer cuts. g++ defines a macro, clang++
// answers a question.
#if defined(__has_feature)
#define DUSKWALK_HAS_FEATURE(x) __has_feature(x)
#else
#define DUSKWALK_HAS_FEATURE(x) 0
#endif
#if defined(__SANITIZE_ADDRESS__) || DUSKWALK_HAS_FEATURE(address_sanitizer)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

inline const std::string kStore = "/store";

enum class Verdict { Ok, CannotOpen, Corrupt, Lost };

// The chain as it must be, whatever the store says: made from the records alone.
inline const std::vector<storage::Sealed>& expected() {
  static const std::vector<storage::Sealed> all = [] {
    std::vector<storage::Sealed> chain;
    for (const storage::Record& r : fixture::records(1, 400)) {
      chain.push_back(storage::seal(r, chain.empty() ? storage::Hash{} : chain.back().hash));
    }
    return chain;
  }();
  return all;
}

// Events 1..m without a hole, with the right content and chain, acked <= m <= attempted.
inline Verdict judge(const storage::Journal& journal, std::int64_t acked, std::int64_t attempted) {
  const auto events = fixture::all_of(journal);
  const auto m = static_cast<std::int64_t>(events.size());
  const bool prefix = m <= static_cast<std::int64_t>(expected().size()) &&
                      std::equal(events.begin(), events.end(), expected().begin());
  if (m < acked) return Verdict::Lost;
  if (journal.damage() || !prefix || m > attempted) return Verdict::Corrupt;
  return Verdict::Ok;
}

inline storage::JournalOptions on(const std::string& vfs,
                                  const storage::JournalTesting* testing = nullptr) {
  storage::JournalOptions options = fixture::small();
  options.vfs = vfs;
  options.testing = testing;
  return options;
}

}  // namespace cut
