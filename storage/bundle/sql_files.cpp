#include "storage/bundle/sql_files.h"

#include <fmt/format.h>
#include <unistd.h>

#include <deque>
#include <filesystem>
#include <utility>

#include "storage/bundle/sql_schema.h"
#include "storage/bundle/sql_tables.h"
#include "storage/disk/part_file.h"

namespace storage {
namespace {

namespace fs = std::filesystem;
using Stopped = std::function<bool()>;

// The folder, and the files in it: parts until all are whole.
class TableFolder {
 public:
  explicit TableFolder(std::string path) : path_(std::move(path)) {}
  TableFolder(const TableFolder&) = delete;
  TableFolder& operator=(const TableFolder&) = delete;
  // What has no name by then is taken back, and the folder if it is ours.
  ~TableFolder() {
    if (done_) return;
    for (const std::string& name : named_) ::unlink(name.c_str());
    parts_.clear();
    if (made_) ::rmdir(path_.c_str());
  }

  Status prepare() {
    std::error_code error;
    made_ = fs::create_directories(path_, error);
    if (!fs::is_directory(path_, error))
      return {Code::BadInput, fmt::format("{}: is no folder and cannot be made one", path_)};
    for (const std::string& name : names())
      if (fs::exists(fs::symlink_status(in(name), error)))
        return {Code::BadInput, fmt::format("{}: exists. Name a new folder", in(name))};
    return {};
  }
  [[nodiscard]] Result<PartFile*> add(const std::string& name) {
    auto part = PartFile::make(in(name), PartFile::Readers::Everybody);
    if (!part.ok()) return part.status();
    parts_.emplace_back(in(name), std::move(part).value());
    return &parts_.back().second;
  }
  // In the order in which they were added.
  Status name_all() {
    for (auto& [name, part] : parts_) {
      if (Status s = part.finish(PartFile::Over::Nothing); !s.ok()) return s;
      named_.push_back(name);
    }
    done_ = true;
    return {};
  }

 private:
  [[nodiscard]] std::string in(const std::string& name) const { return path_ + "/" + name; }
  static std::vector<std::string> names() {
    std::vector<std::string> all{"schema.sql", "load.sql"};
    for (const SqlTable& t : sql_tables()) all.push_back(file_of(t));
    return all;
  }

  std::string path_;
  std::deque<std::pair<std::string, PartFile>> parts_;
  std::vector<std::string> named_;
  bool made_ = false, done_ = false;
};

Status write_text(TableFolder& folder, const std::string& name, const std::string& text) {
  const auto part = folder.add(name);
  return part.ok() ? part.value()->write(text) : part.status();
}

Result<SqlWritten> write_all(TableFolder& folder, const Store& store, const Progress& progress,
                             const Stopped& stopped) {
  SqlExport from{store, progress, stopped};
  if (Status s = write_text(folder, "schema.sql", sql_schema()); !s.ok()) return s;
  for (const SqlTable& table : sql_tables()) {
    if (stopped()) return sql_stopped();
    const auto part = folder.add(file_of(table));
    if (!part.ok()) return part.status();
    CopyFile out(*part.value());
    if (Status s = table.write(out, from); !s.ok()) return s;
    if (Status s = out.end(); !s.ok()) return s;
  }
  if (Status s = write_text(folder, "load.sql", sql_load(store.farm())); !s.ok()) return s;
  if (Status s = folder.name_all(); !s.ok()) return s;
  return from.written;
}

}  // namespace

Result<SqlWritten> write_sql(const Store& store, const std::string& path, const Progress& progress,
                             const Stopped& stopped) {
  TableFolder folder(path);
  if (Status ready = folder.prepare(); !ready.ok()) return ready;
  return write_all(folder, store, progress, stopped);
}

}  // namespace storage
