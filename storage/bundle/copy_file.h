// storage/bundle/copy_file.h -- a file in the text form of PostgreSQL's COPY (its manual, COPY,
// "File Formats": tab, backslash escapes, \N for unknown). Private to storage.
#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "engine/core/instant.h"
#include "engine/core/units.h"
#include "storage/disk/part_file.h"
#include "storage/disk/sha256.h"

namespace storage {

// Takes the cells of a row from left to right, then its end; hands them on in pieces of whole rows,
// to a file or a server. `file` has to live longer. A NUL in a text is left out, for PostgreSQL's
// text has none.
class CopyFile {
 public:
  using Write = std::function<engine::Status(std::string_view piece)>;
  explicit CopyFile(Write write) : write_(std::move(write)) {}
  explicit CopyFile(PartFile& file)
      : CopyFile([&file](std::string_view piece) { return file.write(piece); }) {}

  void text(std::string_view cell);
  void text_if(bool known, std::string_view cell) { known ? text(cell) : unknown(); }
  void json(std::string_view text);  // without the escape of U+0000, which a jsonb refuses
  void number(std::int64_t n) { plain(std::to_string(n)); }
  void number(const std::optional<int>& n) { n ? number(std::int64_t{*n}) : unknown(); }
  void number(int n) { number(std::int64_t{n}); }
  void grams(engine::Mass m);
  void degrees(int udeg);
  void seconds(const std::optional<engine::Elapsed>& length);
  void time(const engine::Stamp& s);
  void day(engine::Date d);
  void yes(bool is) { plain(is ? "t" : "f"); }
  void bytes(const Hash& hash) { plain("\\\\x" + hex(hash)); }
  void unknown() { plain("\\N"); }

  void end_row();
  // Writes what is still held, and says whether all could be written.
  [[nodiscard]] engine::Status end();

 private:
  void next();
  void plain(std::string_view cell);
  void escape(char c);
  void flush();

  Write write_;
  std::string row_;
  bool first_ = true;
  engine::Status written_;
};

}  // namespace storage
