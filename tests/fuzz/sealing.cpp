#include "tests/fuzz/sealing.h"

#include <algorithm>
#include <map>

#include "storage/journal/known_events.h"

namespace fuzz {

std::vector<storage::Sealed> sealed_lines(std::string_view text) {
  std::map<std::string, storage::Head> heads;
  std::vector<storage::Sealed> all;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    auto record = storage::parse_canonical(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!record.ok()) continue;
    storage::Record r = std::move(record).value();
    storage::Head& head = heads[r.device];
    r.seq = ++head.seq;
    all.push_back(storage::seal(std::move(r), head.hash));
    head.hash = all.back().hash;
  }
  return all;
}

}  // namespace fuzz
