// ui/app/copies.h -- making a whole copy of the store on a stick or in the tablet's own folder: in
// steps between the frames, also in the middle of a walk.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "storage/journal/backup.h"
#include "ui/app/places_seen.h"
#include "ui/screens/base/screen.h"

namespace ui {

// Whether a file of that name is a copy as begin() names them.
[[nodiscard]] bool is_copy_name(std::string_view name);

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
  // Those that lie there, newest first.
  void set_found(std::vector<CopyFound> found) { seen_.found = std::move(found); }

 private:
  std::optional<storage::Backup> run_;
  CopyPlace place_;
  std::string name_;
  CopiesSeen seen_;
};

}  // namespace ui
