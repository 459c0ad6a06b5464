#include <filesystem>

#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_reader.h"
#include "storage/journal/events_jsonl.h"
#include "storage/store/store.h"
#include "tests/fuzz/folder.h"
#include "tests/fuzz/sealing.h"
#include "tests/fuzz/targets.h"

namespace {

constexpr const char* kEvents = "data/events.jsonl";

// A first line "seal": the entries get their hashes and the bundle the tag files it lacks, so that
// what is fuzzed gets as far as the merge.
fuzz::FolderFiles folder_of(std::string_view bytes) {
  constexpr std::string_view kSeal = "seal\n";
  fuzz::FolderFiles files = fuzz::files_in(bytes);
  if (!bytes.starts_with(kSeal)) return files;
  if (const auto events = files.find(kEvents); events != files.end())
    events->second = storage::events_jsonl(fuzz::sealed_lines(events->second));
  std::vector<storage::BagFile> payload, tags;
  std::uint64_t sum = 0;
  for (const auto& [path, text] : files) {
    if (!path.starts_with("data/")) continue;
    payload.push_back({path, text.size(), storage::sha256(text)});
    sum += text.size();
  }
  files.try_emplace("bagit.txt", storage::bag_declaration());
  files.try_emplace("bag-info.txt",
                    storage::info_text({{"Payload-Oxum", storage::oxum(sum, payload.size())}}));
  files.try_emplace("manifest-sha256.txt", storage::manifest_text(payload));
  for (const auto& [path, text] : files)
    if (!path.starts_with("data/")) tags.push_back({path, text.size(), storage::sha256(text)});
  files.try_emplace("tagmanifest-sha256.txt", storage::manifest_text(tags));
  return files;
}

void merge(std::vector<storage::Sealed> events) {
  const std::string folder = fuzz::scratch() + "/merge";
  storage::JournalOptions options;
  options.device = "0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b";
  options.ballast_bytes = 0;
  {
    auto store = storage::Store::open(folder + "/a.journal", options);
    fuzz::must(store.ok(), "a new store opens");
    const auto merged = store.value().merge(events);
    if (merged.ok())
      fuzz::must(store.value().merge(std::move(events)).value().added == 0,
                 "a second merge adds nothing");
    fuzz::must(store.value().journal().verify().ok(), "a merge leaves a whole journal");
    const auto now = *engine::stamp_from_rfc3339("2026-08-20T19:00:00-07:00");
    const auto note = store.value().next(now, engine::NoteWritten{{}, {}, "after the merge"});
    fuzz::must(store.value().append(note).ok(), "after a merge the keeper goes on");
  }
  const auto again = storage::Store::open(folder + "/a.journal", options);
  fuzz::must(again.ok() && again.value().damage().empty(), "what was merged opens again");
  std::filesystem::remove_all(folder);
}

}  // namespace

void fuzz::bundle(std::string_view bytes) {
  HeldFiles files(folder_of(bytes));
  (void)storage::check_bag(files, "/in");
  auto intake = storage::read_bundles(files, {"/in"});
  must(intake.ok(), "a folder that is there can be looked into");
  must(intake.value().whole <= intake.value().bundles, "no more whole bundles than there are");
  if (!intake.value().events.empty()) merge(std::move(intake.value().events));
}
