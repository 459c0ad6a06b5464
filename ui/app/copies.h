// ui/app/copies.h -- whole copies of the store on a stick or in the tablet's own folder: making one
// in steps between the frames, also in the middle of a walk, and finding those that lie there.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "storage/disk/removable_media.h"
#include "storage/journal/backup.h"
#include "ui/screens/base/screen.h"

namespace ui {

inline constexpr const char* kThisTablet = "this tablet";

struct CopyPlace {
  std::string folder;
  std::string where;  // the stick's name, or "this tablet"
  storage::Medium medium = storage::Medium::Folder;
};

class Copies {
 public:
  // The journal must stay open until nothing runs any more. A copy is named after the moment and
  // the tablet. Not while one runs.
  void begin(const storage::Journal& journal, const CopyPlace& place, const engine::Stamp& now);
  // The files of a locked store as they are, at once; false: it failed.
  bool copy_as_it_is(const storage::Journal& journal, const CopyPlace& place,
                     const engine::Stamp& now);
  // Some pages more; true: just now it was done, whole and read back.
  bool step();
  void fail(std::string line);
  // What stands behind the line of a copy that is done: whether its stick may be pulled.
  void add(const std::string& line);

  [[nodiscard]] bool running() const { return run_.has_value(); }
  [[nodiscard]] const CopyPlace& place() const { return place_; }
  [[nodiscard]] const CopiesSeen& seen() const { return seen_; }
  // Newest first.
  void look_for(std::span<const CopyPlace> places);

 private:
  std::optional<storage::Backup> run_;
  CopyPlace place_;
  std::string name_;
  CopiesSeen seen_;
};

}  // namespace ui
