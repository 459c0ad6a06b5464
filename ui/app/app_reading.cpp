// What other tablets and copies bring: read beside the screens, merged between two frames.
#include "storage/bundle/bundle_reader.h"
#include "storage/journal/backup.h"
#include "ui/app/app.h"

namespace ui {
namespace {

// Reads what the bundles below the folder bring; what cannot be taken is named.
Gathered read_folder(const std::string& folder) {
  Gathered g{.seen = {.folder = folder}};
  auto read = storage::read_bundles({folder});
  g.seen.failed = !read.ok() || read.value().bundles == 0;
  if (!read.ok()) {
    g.seen.lines = {read.status().message()};
  } else if (g.seen.failed) {
    g.seen.lines = {"There is no bundle here: it is a folder with bagit.txt in it."};
  } else {
    g.seen.bundles = read.value().bundles;
    g.seen.whole = read.value().whole;
    g.seen.lines = std::move(read.value().lines);
    g.events = std::move(read.value().events);
    g.signatures = std::move(read.value().signatures);
  }
  return g;
}

Gathered read_copy(const std::string& path, const std::string& scratch) {
  Gathered g{.seen = {.folder = path, .copy = true}};
  auto events = storage::read_backup(path, scratch);
  g.seen.failed = !events.ok();
  if (events.ok())
    g.events = std::move(events).value();
  else
    g.seen.lines = {events.status().message()};
  return g;
}

}  // namespace

void App::carry(const TakeIn& wanted, const engine::Stamp&) {
  taken_in_ = {.folder = wanted.folder, .reading = true};
  reading_.start([folder = wanted.folder] { return read_folder(folder); });
}

// One after the other: a copy is read in a file beside the store.
void App::carry(const TakeInCopy& wanted, const engine::Stamp&) {
  if (reading_.busy() && taken_in_.copy) {
    problem_ = "A backup is still being read. If that takes long, its stick does not answer.";
    return;
  }
  taken_in_ = {.folder = wanted.path, .copy = true, .reading = true};
  const std::string scratch = parts_.store_path + ".taking-in";
  reading_.start([path = wanted.path, scratch] { return read_copy(path, scratch); });
}

void App::finish_taking_in() {
  // Nothing comes in from outside in the middle of a walk.
  if (engine::walk_under_way(store_.farm(), store_.device()) != nullptr) return;
  auto gathered = reading_.take();
  if (!gathered) return;
  taken_in_ = std::move(gathered->seen);
  if (taken_in_.failed) return;
  auto merged = store_.merge(std::move(gathered->events), {}, gathered->signatures);
  if (!merged.ok()) {
    taken_in_.failed = true;
    taken_in_.lines = {merged.status().message()};
    return;
  }
  taken_in_.added = merged.value().added;
  taken_in_.known = merged.value().known;
  for (std::string& line : merged.value().lines) taken_in_.lines.push_back(std::move(line));
  for (const storage::HeldTablet& held : merged.value().held)
    taken_in_.lines.push_back(storage::held_line(store_, held));
}

void App::set_sticks(std::vector<storage::Stick> sticks) {
  sticks_ = std::move(sticks);
  look_at_places();
}

void App::look_at_places() {
  std::vector<CopyPlace> places;
  for (const storage::Stick& s : sticks_) places.push_back({s.path, s.name, s.medium});
  if (!parts_.log_folder.empty()) places.push_back({parts_.log_folder, kThisTablet});
  places_.look_at(places);
  show_places();
}

void App::show_places() {
  sticks_seen_.clear();
  for (const storage::Stick& s : sticks_)
    sticks_seen_.push_back({s.name, s.path, s.read_only, places_.free_bytes(s.path)});
  copies_.set_found(places_.copies());
}

void App::fetch_what_was_read() {
  if (places_.fetch()) show_places();
  finish_taking_in();
  if (const auto written = paper_.take()) {
    if (!written->ok()) problem_ = written->status().message();
    paper_line_ = written->ok() ? "Written: " + written->value() : "";
  }
}

bool App::waits_for_readers() const { return places_.busy() || reading_.busy() || paper_.busy(); }

void App::finish_jobs() {
  constexpr std::chrono::seconds kMost{60};
  job_.wait();
  places_.wait(kMost);
  reading_.wait(kMost);
  paper_.wait(kMost);
  exchange_.settle(store_);
}

}  // namespace ui
