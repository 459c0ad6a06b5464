#include "storage/bundle/bag.h"

#include <cerrno>

#include "storage/bundle/bag_left_overs.h"
#include "storage/bundle/bag_plan.h"
#include "storage/bundle/bag_read.h"
#include "storage/disk/payload_path.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::size_t kPiece = 256 * 1024;  // bytes written between two reports of progress
constexpr int kMostRead = 9;                // of NAME, NAME-2 ... that may be the same bundle
constexpr int kMostNames = 999;             // tried before nothing is written

// NAME, NAME-2, NAME-3 ...
std::string numbered(const std::string& name, int number) {
  return number == 1 ? name : name + "-" + std::to_string(number);
}

// Writes one plan to one folder. Each step returns a Status; write_new() takes back what was
// written when one of them fails.
class BagWriter {
 public:
  BagWriter(Files& files, const BagRequest& request, const BagPlan& plan,
            const OnProgress& progress)
      : files_(files), request_(request), plan_(plan), progress_(progress) {}

  Result<BagResult> run();

 private:
  Status look_at_parent();
  Result<std::string> free_name(bool& already_there);
  Result<bool> is_same_bundle(const std::string& name);
  Result<std::string> free_part(const std::string& name);
  Status check_room();
  Status write_new(const std::string& name);
  Status write_all();
  Status make_folder(const std::string& path);
  Status on_medium(const std::string& path);
  Status write_file(const PlannedFile& file);
  Status flush();
  Status read_back();
  Status publish(const std::string& name);
  Status still_there();
  void take_back(const std::string& name);

  Status with_numbers(const Status& full) const;
  Status fail(int err, const std::string& path) const;
  void report(BagStep step, std::uint64_t done) const;
  std::string in_parent(const std::string& name) const { return request_.parent + "/" + name; }
  std::string in_part(const std::string& path) const { return part_ + "/" + path; }
  std::string medium() const { return name(request_.medium); }

  Files& files_;
  const BagRequest& request_;
  const BagPlan& plan_;
  const OnProgress& progress_;
  std::string part_;           // the unfinished folder
  FileInfo held_;              // the parent when we began
  std::uint64_t written_ = 0;  // bytes
  bool made_ = false;          // the unfinished folder is ours to take back
  bool published_ = false;     // our folder bears the final name
  std::string beside_;         // what to tell about what lies beside ours and was left alone
};

Status BagWriter::fail(int err, const std::string& path) const {
  if (err == ECANCELED) return {Code::Failed, "stopped: no bundle was written"};
  return trouble(request_.medium, Doing::Writing, err, path);
}

void BagWriter::report(BagStep step, std::uint64_t done) const {
  if (progress_) progress_({step, done, plan_.all_bytes});
}

Status BagWriter::look_at_parent() {
  const int err = files_.hold(request_.parent);
  if (err == ENOENT || err == ENOTDIR)
    return {Code::NotFound, "the " + medium() + " " + request_.parent +
                                " is not there: put it in, or choose another one"};
  if (err != 0) return fail(err, request_.parent);
  if (const int seen = files_.info(in_parent("."), held_)) return fail(seen, request_.parent);
  if (request_.device && *request_.device != held_.device)
    return trouble(request_.medium, Doing::Writing, ENODEV, request_.parent);
  return {};
}

// What was held may be a stick that has been pulled since: its folder is another one then.
Status BagWriter::still_there() {
  FileInfo now;
  if (const int err = files_.leads_to(request_.parent, now)) return fail(err, request_.parent);
  if (now.device == held_.device && now.inode == held_.inode) return {};
  return trouble(request_.medium, Doing::Writing, ENODEV, request_.parent);
}

// Whether the folder under our name is whole and holds what we would write.
Result<bool> BagWriter::is_same_bundle(const std::string& name) {
  FileInfo info;
  if (const int err = files_.info(in_parent(name), info)) return fail(err, in_parent(name));
  if (const int err = files_.sync_medium(request_.parent)) return fail(err, request_.parent);
  Result<BagReport> found(Status(Code::NotFound, {}));  // a link or a file is no bundle
  if (info.kind == FileKind::Folder)
    found = check_bag(files_, in_parent(name), request_.medium, progress_);
  if (!found.ok() && found.status().code() != Code::NotFound) return found.status();
  std::string why;
  if (!found.ok())
    why = "it is no bundle";
  else if (!found.value().whole())
    why = found.value().problems.lines().front();
  else if (found.value().manifest != plan_.manifest)
    why = "it holds other files";
  if (why.empty()) return true;
  beside_ = "; the damaged one there, " + name + ", was left alone (" + why + ")";
  return false;
}

// Copies beyond the first few are passed by unread: each was found damaged when the next was
// written.
Result<std::string> BagWriter::free_name(bool& already_there) {
  for (int copy = 1; copy <= kMostNames; ++copy) {
    const std::string name = numbered(plan_.name, copy);
    FileInfo info;
    if (const int err = files_.info(in_parent(name), info)) return fail(err, in_parent(name));
    if (info.kind == FileKind::None) return name;
    if (copy > kMostRead) continue;
    const Result<bool> same = is_same_bundle(name);
    if (!same.ok()) return same.status();
    if (same.value()) {
      already_there = true;
      return name;
    }
  }
  return {Code::Damaged, "all names of this bundle are taken on the " + medium() +
                             ": do not trust it, use another " + medium()};
}

// Under which name the bundle is written. What lies under one and is not ours to remove is left.
Result<std::string> BagWriter::free_part(const std::string& name) {
  for (const std::string& stays :
       clean_left_overs(files_, request_.parent, held_, request_.device_short))
    beside_ += "; " + shown_path(stays) + " was left alone (no unfinished bundle of this tablet)";
  for (int number = 1; number <= kMostNames; ++number) {
    const std::string path = in_parent(numbered(part_name(name), number));
    FileInfo info;
    if (const int err = files_.info(path, info)) return fail(err, path);
    if (info.kind == FileKind::None) return path;
  }
  return {Code::Failed, "all names of unfinished bundles are taken on the " + medium() +
                            ": use another " + medium()};
}

Status BagWriter::check_room() {
  Room room;
  if (const int err = files_.room(request_.parent, room)) return fail(err, request_.parent);
  if (room.read_only) return trouble(request_.medium, Doing::Writing, EROFS, request_.parent);
  const std::uint64_t needed = room_needed(plan_, room.block);
  if (room.total != 0 && room.free < needed) return no_room(request_.medium, needed, room.free);
  return {};
}

// A pulled stick leaves an empty folder of the tablet's own disk behind: never write there.
Status BagWriter::make_folder(const std::string& path) {
  if (const int err = files_.make_folder(path)) return fail(err, path);
  return on_medium(path);
}

Status BagWriter::on_medium(const std::string& path) {
  FileInfo info;
  if (const int err = files_.info(path, info)) return fail(err, path);
  if (info.kind != FileKind::Folder || info.device != held_.device)
    return trouble(request_.medium, Doing::Writing, ENODEV, path);
  return {};
}

Status BagWriter::write_file(const PlannedFile& file) {
  const std::string path = in_part(file.path);
  int fd = -1;
  int err = files_.create(path, fd);
  if (err != 0) return fail(err, path);
  std::string_view rest = file.bytes;
  while (err == 0 && !rest.empty()) {
    if (request_.stopped()) err = ECANCELED;
    if (err != 0) break;
    const std::string_view piece = rest.substr(0, kPiece);
    err = files_.write(fd, piece);
    if (err != 0) break;
    rest.remove_prefix(piece.size());
    written_ += piece.size();
    report(BagStep::Writing, written_);
  }
  if (err == 0) err = files_.sync(fd);
  const int closing = files_.close(fd);
  if (err == 0) err = closing;
  return err == 0 ? Status{} : fail(err, path);
}

Status BagWriter::write_all() {
  if (const int err = files_.make_folder(part_)) return fail(err, part_);
  made_ = true;
  if (Status s = on_medium(part_); !s.ok()) return s;
  for (const std::string& folder : plan_.folders)
    if (Status s = make_folder(in_part(folder)); !s.ok()) return s;
  for (const PlannedFile& file : plan_.files)
    if (Status s = write_file(file); !s.ok()) return s;
  return {};
}

Status BagWriter::flush() {
  for (auto folder = plan_.folders.rbegin(); folder != plan_.folders.rend(); ++folder)
    if (const int err = files_.sync_folder(in_part(*folder))) return fail(err, in_part(*folder));
  if (const int err = files_.sync_folder(part_)) return fail(err, part_);
  if (const int err = files_.sync_folder(request_.parent)) return fail(err, request_.parent);
  if (const int err = files_.sync_medium(part_)) return fail(err, part_);
  return {};
}

Status BagWriter::read_back() {
  std::uint64_t done = 0;
  for (const PlannedFile& file : plan_.files) {
    if (request_.stopped()) return fail(ECANCELED, part_);
    Hash hash{};
    std::uint64_t bytes = 0;
    const int err = hash_file(files_, in_part(file.path), hash, bytes, [&](std::uint64_t more) {
      done += more;
      report(BagStep::ReadingBack, done);
    });
    if (err != 0) return fail(err, in_part(file.path));
    if (bytes != file.bytes.size() || hash != file.hash)
      return {Code::Damaged, "the " + medium() + " gave back other bytes than were written (" +
                                 file.path + "): do not trust it, use another " + medium()};
  }
  return {};
}

Status BagWriter::publish(const std::string& name) {
  report(BagStep::Finishing, plan_.all_bytes);
  if (const int err = files_.rename(part_, in_parent(name))) return fail(err, in_parent(name));
  published_ = true;
  if (const int err = files_.sync_folder(request_.parent)) return fail(err, request_.parent);
  if (const int err = files_.sync_medium(in_parent(name))) return fail(err, in_parent(name));
  return still_there();
}

// The room is asked for after our part is gone again, so that the numbers can be acted on.
Status BagWriter::with_numbers(const Status& full) const {
  Room room;
  if (files_.room(request_.parent, room) != 0 || room.total == 0) return full;
  return no_room(request_.medium, room_needed(plan_, room.block), room.free);
}

// Best effort: the medium may be gone. Under its temporary name first, so that no half bundle
// shows under the final one while its files go.
void BagWriter::take_back(const std::string& name) {
  if (!made_ || (published_ && files_.rename(in_parent(name), part_) != 0)) return;
  remove_written(files_, part_, plan_);
}

Status BagWriter::write_new(const std::string& name) {
  const Result<std::string> part = free_part(name);
  if (!part.ok()) return part.status();
  if (Status s = check_room(); !s.ok()) return s;
  part_ = part.value();
  Status s = write_all();
  if (s.ok()) s = flush();
  if (s.ok()) s = read_back();
  if (s.ok()) s = publish(name);
  if (s.ok()) return s;
  take_back(name);
  return s.code() == Code::Full ? with_numbers(s) : s;
}

Result<BagResult> BagWriter::run() {
  if (Status s = look_at_parent(); !s.ok()) return s;
  BagResult result;
  const Result<std::string> name = free_name(result.already_there);
  if (!name.ok()) return name.status();
  result.name = name.value();
  if (!result.already_there) {
    if (Status s = write_new(result.name); !s.ok()) return s;
  } else {
    if (const int err = files_.sync_medium(request_.parent)) return fail(err, request_.parent);
    if (Status s = still_there(); !s.ok()) return s;
  }
  result.folder = in_parent(result.name);
  result.files = plan_.files.size() - 4;
  result.bytes = plan_.payload_bytes;
  result.manifest = plan_.manifest;
  result.say = (result.already_there ? "already there, read again and good: "
                                     : "written, read back and good: ") +
               result.name + beside_;
  return result;
}

}  // namespace

Result<BagResult> write_bag(Files& files, const BagRequest& request, const OnProgress& progress) {
  Result<BagPlan> plan = plan_bag(request);
  if (!plan.ok()) return plan.status();
  return BagWriter(files, request, plan.value(), progress).run();
}

Result<BagResult> write_bag(const BagRequest& request, const OnProgress& progress) {
  DiskFiles files;
  return write_bag(files, request, progress);
}

Result<std::string> bag_name(const BagRequest& request) {
  const Result<BagPlan> plan = plan_bag(request);
  if (!plan.ok()) return plan.status();
  return plan.value().name;
}

}  // namespace storage
