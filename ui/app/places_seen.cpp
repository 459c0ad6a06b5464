#include "ui/app/places_seen.h"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "ui/app/copies.h"

namespace ui {
namespace {

std::vector<CopyFound> copies_in(const CopyPlace& place) {
  namespace fs = std::filesystem;
  std::vector<CopyFound> found;
  std::error_code error;
  for (fs::directory_iterator at(place.folder, error), end; !error && at != end;
       at.increment(error)) {
    const std::string name = at->path().filename().string();
    std::error_code gone;
    if (!is_copy_name(name) || !at->is_regular_file(gone)) continue;
    const std::uintmax_t bytes = at->file_size(gone);
    if (!gone) found.push_back({name, at->path().string(), place.where, bytes});
  }
  return found;
}

PlacesSeen::Found room_and_copies(const CopyPlace& place) {
  const auto free = storage::free_bytes(place.folder);
  return {free.ok() ? std::optional(free.value()) : std::nullopt, copies_in(place)};
}

}  // namespace

PlacesSeen::PlacesSeen(LookInto look_into) : look_into_(std::move(look_into)) {
  if (!look_into_) look_into_ = room_and_copies;
}

void PlacesSeen::look_at(const std::vector<CopyPlace>& places) {
  std::vector<Place> next;
  for (const CopyPlace& place : places) {
    // What was found before is shown until it is found anew.
    const auto known = std::find_if(places_.begin(), places_.end(),
                                    [&](const Place& p) { return p.folder == place.folder; });
    Place p{.folder = place.folder};
    if (known != places_.end()) p.found = known->found;
    p.look.start([place, look = look_into_] { return look(place); });
    next.push_back(std::move(p));
  }
  places_ = std::move(next);
}

bool PlacesSeen::fetch() {
  bool any = false;
  for (Place& place : places_) {
    if (auto found = place.look.take()) place.found = std::move(*found), any = true;
  }
  return any;
}

bool PlacesSeen::busy() const {
  return std::any_of(places_.begin(), places_.end(), [](const Place& p) { return p.look.busy(); });
}

void PlacesSeen::wait(std::chrono::milliseconds most) const {
  for (const Place& place : places_) place.look.wait(most);
}

std::optional<std::uint64_t> PlacesSeen::free_bytes(const std::string& folder) const {
  const auto at = std::find_if(places_.begin(), places_.end(),
                               [&](const Place& p) { return p.folder == folder; });
  return at == places_.end() ? std::nullopt : at->found.free;
}

std::vector<CopyFound> PlacesSeen::copies() const {
  std::vector<CopyFound> all;
  for (const Place& place : places_)
    all.insert(all.end(), place.found.copies.begin(), place.found.copies.end());
  std::stable_sort(all.begin(), all.end(),
                   [](const CopyFound& a, const CopyFound& b) { return a.name > b.name; });
  return all;
}

}  // namespace ui
