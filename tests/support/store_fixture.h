// tests/support/store_fixture.h -- stores that take in what other tablets wrote, and the bundles it
// comes in.
#pragma once
#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/journal/events_jsonl.h"
#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace fixture {

// A tablet's note, which fits every farm.
inline storage::Record note_of(std::int64_t seq, const std::string& device,
                               const std::string& text = "dry") {
  const engine::DeviceId id{engine::uuid_from_text(device).value()};
  return storage::to_record({{id, seq}, {}, engine::NoteWritten{{}, {}, text}});
}

inline storage::Store store_in(const Folder& folder) {
  auto store = storage::Store::open(folder / "farm.journal", small());
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

inline storage::Merged merged(storage::Store& store, std::vector<storage::Sealed> events) {
  auto done = store.merge(std::move(events));
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  return std::move(done).value();
}

// The folder of a new bundle below `parent` with these entries, wherever its signatures came from.
inline std::string bundle_in(const std::string& parent, const std::vector<storage::Sealed>& events,
                             const std::string& signatures = "") {
  std::filesystem::create_directories(parent);
  storage::BagRequest request;
  request.parent = parent;
  request.device_short = "3f9a1c20";
  request.day = request.bagging_date = "2026-08-14";
  request.payload = {{"events.jsonl", storage::events_jsonl(events)}};
  if (!signatures.empty()) request.payload.push_back({storage::kSignaturesFile, signatures});
  const auto written = storage::write_bag(request);
  REQUIRE_MESSAGE(written.ok(), written.status().message());
  return written.value().folder;
}

}  // namespace fixture
