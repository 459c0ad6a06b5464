#include "storage/bundle/bundle_signatures.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "engine/words/words.h"
#include "storage/bundle/day_bundle.h"
#include "storage/journal/journal_check.h"

namespace storage {
namespace {

std::string bad_line(const std::string& bundle, const std::string& device, std::size_t entries) {
  return fmt::format(
      "{}: a signature of tablet {} is not that of its entries: {} of it left out; get the bundle "
      "again from that tablet",
      bundle, short_name(device), engine::counted(entries, "entry is", "entries are"));
}

}  // namespace

std::string signatures_of_day(const Store& store, std::span<const Sealed> records,
                              std::optional<engine::Date> day) {
  std::vector<Sealed> of_day;
  for (const Sealed& s : records)
    if (!day || local_date(s.record) == *day) of_day.push_back(s);
  const auto signatures = store.signatures_for(of_day);
  return signatures.empty() ? std::string() : signatures_text(signatures);
}

std::vector<Signature> keep_signed(const std::string& bundle, ReadSignatures read,
                                   std::vector<Sealed>& events, std::vector<std::string>& lines) {
  if (read.bad_lines > 0)
    lines.push_back(fmt::format("{}: {} of {} cannot be read", bundle,
                                engine::counted(read.bad_lines, "line", "lines"), kSignaturesFile));
  if (read.signatures.empty()) return {};
  std::set<SignedEntry> there;
  for (const Sealed& s : events) there.insert({s.record.device, s.record.seq, s.hash});
  std::map<std::string, std::size_t> bad;  // tablet to how many of its entries
  for (const Signature& s : read.signatures)
    if (!there.contains(s.entry) || !holds(s)) bad.emplace(s.entry.device, 0);
  std::erase_if(read.signatures, [&](const Signature& s) { return bad.contains(s.entry.device); });
  std::erase_if(events, [&](const Sealed& s) {
    const auto of_bad = bad.find(s.record.device);
    if (of_bad == bad.end()) return false;
    ++of_bad->second;
    return true;
  });
  for (const auto& [device, entries] : bad) lines.push_back(bad_line(bundle, device, entries));
  return std::move(read.signatures);
}

}  // namespace storage
