// ui/app/places_seen.h -- what lies on the sticks and in the tablet's own folder: room and copies.
//
// Each place is looked at beside the screens, on its own: a stick that does not answer hides no
// other, and holds nobody up.
#pragma once
#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "storage/disk/removable_media.h"
#include "ui/app/beside.h"
#include "ui/screens/base/screen.h"

namespace ui {

inline constexpr const char* kThisTablet = "this tablet";

struct CopyPlace {
  std::string folder;
  std::string where;  // the stick's name, or "this tablet"
  storage::Medium medium = storage::Medium::Folder;
};

class PlacesSeen {
 public:
  struct Found {
    std::optional<std::uint64_t> free;
    std::vector<CopyFound> copies;
  };
  using LookInto = std::function<Found(const CopyPlace&)>;

  // Looks itself where nobody else is to.
  explicit PlacesSeen(LookInto look_into = {});

  // Forgets the others and looks at these.
  void look_at(const std::vector<CopyPlace>& places);
  // Takes what was found meanwhile; true: there is something new.
  bool fetch();
  [[nodiscard]] bool busy() const;
  // At most so long for each; for scripts.
  void wait(std::chrono::milliseconds most) const;

  // Not known (yet): nothing.
  [[nodiscard]] std::optional<std::uint64_t> free_bytes(const std::string& folder) const;
  // Of all places, newest first.
  [[nodiscard]] std::vector<CopyFound> copies() const;

 private:
  struct Place {
    std::string folder;
    Beside<Found> look{};
    Found found{};
  };

  LookInto look_into_;
  std::vector<Place> places_;
};

}  // namespace ui
