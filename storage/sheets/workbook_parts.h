// storage/sheets/workbook_parts.h -- the files inside a workbook (a zip archive) and their XML.
// Private to storage.
//
// Whoever made the archive is a stranger: no part is unpacked beyond kLargestPart, a document type
// declaration ends the reading (no entity is ever declared), and damage is said in one line.
#pragma once
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "engine/core/status.h"

struct zip;

namespace storage {

inline constexpr std::size_t kLargestPart = std::size_t{1} << 30;  // bytes of one part, unpacked

// Names without their namespace prefix: "row", not "x:row".
using XmlAttributes = std::map<std::string, std::string, std::less<>>;
struct XmlReader {
  virtual ~XmlReader() = default;
  virtual void start(std::string_view name, const XmlAttributes& attributes) = 0;
  virtual void end(std::string_view name) = 0;
  virtual void text(std::string_view /*piece*/) {}
  // Asked between pieces of the file: what is read so far is enough, or too much.
  [[nodiscard]] virtual bool enough() const { return false; }
};

class WorkbookParts {
 public:
  // `bytes` outlive this. BadInput when they are no zip archive, or a damaged one.
  [[nodiscard]] static engine::Result<WorkbookParts> open(std::string_view bytes);

  [[nodiscard]] bool has(const std::string& part) const;
  // NotFound: there is no such part. BadInput: it is damaged, locked, too large or no XML.
  [[nodiscard]] engine::Status read(const std::string& part, XmlReader& to) const;

 private:
  struct Close {
    void operator()(zip* archive) const;
  };
  std::unique_ptr<zip, Close> archive_;
};

}  // namespace storage
