#include "storage/bundle/sql_files.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <deque>
#include <filesystem>
#include <utility>

#include "engine/register/register.h"
#include "engine/words/words.h"
#include "storage/bundle/sql_schema.h"
#include "storage/disk/part_file.h"

namespace storage {
namespace {

namespace fs = std::filesystem;
using Stopped = std::function<bool()>;
using engine::RegisterRow;

std::string without_nul_escapes(std::string_view json) {
  constexpr std::string_view kNul = "\\u0000";
  std::string out;
  while (!json.empty()) {
    const std::size_t escape = std::min(json.find('\\'), json.size());
    out += json.substr(0, escape);
    json.remove_prefix(escape);
    const bool nul = json.starts_with(kNul);
    const std::size_t taken = std::min(nul ? kNul.size() : 2, json.size());
    if (!nul) out += json.substr(0, taken);  // an escape has two signs or begins with two
    json.remove_prefix(taken);
  }
  return out;
}

// One row of COPY's text form after the other, in pieces.
class CopyFile {
 public:
  explicit CopyFile(PartFile& file) : file_(file) {}

  CopyFile& text(std::string_view cell) {
    next();
    for (const char c : cell) escape(c);
    return *this;
  }
  CopyFile& number(std::int64_t n) { return plain(std::to_string(n)); }
  CopyFile& grams(engine::Mass m) {
    return plain(fmt::format("{}{}.{:03}", m.mg < 0 ? "-" : "", std::abs(m.mg) / 1000,
                             std::abs(m.mg) % 1000));
  }
  CopyFile& yes(bool is) { return plain(is ? "t" : "f"); }
  CopyFile& bytes(const Hash& hash) { return plain("\\\\x" + hex(hash)); }
  CopyFile& unknown() { return plain("\\N"); }
  // JSON without the escape of U+0000, which a jsonb refuses.
  CopyFile& json(std::string_view text) { return this->text(without_nul_escapes(text)); }
  CopyFile& maybe_number(const std::optional<int>& n) { return n ? number(*n) : unknown(); }

  void end_row() {
    row_ += '\n';
    first_ = true;
    if (row_.size() > (1U << 20)) flush();
  }
  // What is still to be written, and whether all could be.
  [[nodiscard]] Status end() {
    flush();
    return written_;
  }

 private:
  void next() {
    if (!first_) row_ += '\t';
    first_ = false;
  }
  CopyFile& plain(std::string_view cell) {
    next();
    row_ += cell;
    return *this;
  }
  void escape(char c) {
    if (c == '\\')
      row_ += "\\\\";
    else if (c == '\t')
      row_ += "\\t";
    else if (c == '\n')
      row_ += "\\n";
    else if (c == '\r')
      row_ += "\\r";
    else if (c != '\0')
      row_ += c;
  }
  void flush() {
    if (written_.ok()) written_ = file_.write(row_);
    row_.clear();
  }

  PartFile& file_;
  std::string row_;
  bool first_ = true;
  Status written_;
};

// The year 0 is 1 BC to PostgreSQL, which knows no year of that number.
std::string sql_year(std::string text) {
  return text.starts_with("0000") ? "0001" + text.substr(4) + " BC" : text;
}
std::string sql_time(const engine::Stamp& s) { return sql_year(engine::rfc3339(s)); }
std::string sql_day(engine::Date d) { return sql_year(engine::iso_date(d)); }

// In UTC, from milliseconds.
std::string utc(std::int64_t ms) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{ms}};
  return sql_time(s);
}

// As the farm calls the entry; none: it waits.
std::optional<engine::EntryRef> ref_of(const Sealed& s, const ForkTrees& trees) {
  const Record& r = s.record;
  const auto tree = trees.find(r.device);
  const auto id =
      tree == trees.end()
          ? engine::DeviceId{engine::uuid_from_text(r.device).value_or(engine::UuidBytes{})}
          : tree->second.name_of(r.seq, s.hash);
  return id ? std::optional(engine::EntryRef{*id, r.seq}) : std::nullopt;
}

void entry_row(CopyFile& out, const Sealed& s, const engine::Farm& farm, const ForkTrees& trees) {
  const Record& r = s.record;
  out.text(r.device).number(r.seq).text(utc(r.at_utc_ms)).number(r.zone_offset_min).text(r.kind);
  out.json(r.body).text(canonical(r)).bytes(s.prev).bytes(s.hash);
  const auto ref = ref_of(s, trees);
  const auto place = ref ? farm.log.find(*ref) : std::nullopt;
  if (!place) {  // behind a gap: nobody knows yet
    out.unknown().unknown().unknown().end_row();
    return;
  }
  const engine::Entry entry = farm.log.copy(*place);
  out.yes(entry.counts());
  entry.struck ? out.text(entry.struck->reason) : out.unknown();
  const bool branch = engine::find_branch(farm.branches, ref->device) != nullptr;
  branch ? out.text(engine::text(ref->device)) : out.unknown();
  out.end_row();
}

Status stopped_line() { return {Code::Failed, "stopped: no tables were written"}; }

Status write_entries(CopyFile& out, const Store& store, const Progress& progress,
                     const Stopped& stopped, std::int64_t& count) {
  const auto trees = store.journal().forks();
  if (!trees.ok()) return trees.status();
  const auto all =
      static_cast<std::size_t>(store.journal().size()) + store.journal().sides().size();
  bool stop = false;
  const Status read = store.journal().replay([&](const Sealed& s) {
    if (count % 5000 == 0) stop = stop || stopped();
    if (stop) return;
    if (progress && count % 5000 == 0) progress("writing", static_cast<std::size_t>(count), all);
    entry_row(out, s, store.farm(), trees.value());
    ++count;
  });
  return stop ? stopped_line() : read;
}

void write_yards(CopyFile& out, const engine::Farm& farm) {
  const auto degrees = [&](int udeg) -> CopyFile& {
    return out.text(fmt::format("{:.6f}", udeg / 1e6));
  };
  for (const auto& [id, y] : farm.yards) {
    out.text(engine::text(id)).text(y.name);
    y.place ? degrees(y.place->lat_udeg) : out.unknown();
    y.place ? degrees(y.place->lon_udeg) : out.unknown();
    out.text(y.zone).text(y.note).yes(y.lost).end_row();
  }
}

void write_colonies(CopyFile& out, const engine::Farm& farm) {
  for (const auto& [id, c] : farm.colonies) {
    out.text(engine::text(id)).text(engine::text(c.yard)).text(c.name).number(c.brood_boxes);
    out.yes(c.supers_on).text(c.note).yes(c.lost).end_row();
  }
}

void write_lots(CopyFile& out, const engine::Farm& farm) {
  for (const auto& [id, l] : farm.lots) {
    out.text(engine::text(id)).text(l.product).text(l.registration).text(l.code);
    l.expiry ? out.text(sql_day(*l.expiry)) : out.unknown();
    out.text(l.supplier).text(l.receipt).grams(l.received).grams(l.used);
    out.grams(l.disposed).end_row();
  }
}

void write_counts(CopyFile& out, const engine::Farm& farm) {
  for (const engine::Count& c : farm.counts) {
    out.text(engine::text(c.entry.device)).number(c.entry.seq).text(engine::text(c.taken.colony));
    out.text(sql_day(c.taken.on)).text(engine::name(c.taken.method));
    out.number(c.taken.mites).maybe_number(c.taken.bees).maybe_number(c.taken.hours).end_row();
  }
}

void write_joined(CopyFile& out, const engine::Joins& joins) {
  for (const auto& [id, to] : joins.yards)
    out.text(engine::text(id)).text(engine::text(to)).end_row();
  for (const auto& [id, to] : joins.colonies)
    out.text(engine::text(id)).text(engine::text(to)).end_row();
}

void treatment_row(CopyFile& out, const RegisterRow& r) {
  const auto length = [&](const std::optional<engine::Elapsed>& e) {
    e ? out.number(e->length.count() / 1000) : out.unknown();
  };
  out.text(engine::text(r.entry.device)).number(r.entry.seq).text(sql_day(r.date));
  r.at ? out.text(sql_time(*r.at)) : out.unknown();
  r.yard.empty() ? out.unknown() : out.text(engine::text(r.yard));
  out.text(r.yard_name).text(engine::text(r.colony)).text(r.colony_name);
  out.text(engine::name(r.method)).text(r.product).text(r.registration).text(r.lot_code);
  r.dose ? out.grams(*r.dose) : out.unknown();
  out.text(r.dose_text).text(engine::name(r.basis)).maybe_number(r.brood_boxes);
  r.supers_on ? out.yes(*r.supers_on) : out.unknown();
  out.maybe_number(r.withdrawal_days);
  length(r.dwell), length(r.seal);
  out.text(engine::words(r.outcome)).text(r.operator_name).text(r.operator_address);
  out.text(r.reason).text(r.note).yes(r.counts());
  r.struck ? out.text(r.struck->reason) : out.unknown();
  out.end_row();
}

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

Status fill(CopyFile& out, const SqlTable& table, const Store& store, const Progress& progress,
            const Stopped& stopped, SqlWritten& done) {
  const std::string_view name = table.name;
  const engine::Farm& farm = store.farm();
  if (name == "entry") return write_entries(out, store, progress, stopped, done.entries);
  if (name == "yard") write_yards(out, farm);
  if (name == "colony") write_colonies(out, farm);
  if (name == "lot") write_lots(out, farm);
  if (name == "mite_count") write_counts(out, farm);
  if (name == "joined") write_joined(out, farm.log.joins());
  if (name != "treatment") return {};
  for (const RegisterRow& row : engine::register_rows(farm, {})) {
    treatment_row(out, row);
    ++done.treatments;
  }
  return {};
}

Result<SqlWritten> write_all(TableFolder& folder, const Store& store, const Progress& progress,
                             const Stopped& stopped) {
  SqlWritten done;
  if (Status s = write_text(folder, "schema.sql", sql_schema()); !s.ok()) return s;
  for (const SqlTable& table : sql_tables()) {
    if (stopped()) return stopped_line();
    const auto part = folder.add(file_of(table));
    if (!part.ok()) return part.status();
    CopyFile out(*part.value());
    if (Status s = fill(out, table, store, progress, stopped, done); !s.ok()) return s;
    if (Status s = out.end(); !s.ok()) return s;
  }
  if (Status s = write_text(folder, "load.sql", sql_load(store.farm())); !s.ok()) return s;
  if (Status s = folder.name_all(); !s.ok()) return s;
  return done;
}

}  // namespace

Result<SqlWritten> write_sql(const Store& store, const std::string& path, const Progress& progress,
                             const Stopped& stopped) {
  TableFolder folder(path);
  if (Status ready = folder.prepare(); !ready.ok()) return ready;
  return write_all(folder, store, progress, stopped);
}

}  // namespace storage
