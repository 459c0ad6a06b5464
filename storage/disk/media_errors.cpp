#include "storage/disk/media_errors.h"

#include <cerrno>
#include <system_error>

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string system_text(int err) { return std::generic_category().message(err); }

Code code_of(int err) {
  switch (err) {
    case ENOSPC:
    case EDQUOT:
      return Code::Full;
    case EROFS:
    case EACCES:
    case EPERM:
      return Code::ReadOnly;
    case EIO:
    case ENODEV:
    case ENXIO:
    case ENOENT:
    case ENOTDIR:
    case ENOTCONN:
    case ESTALE:
    case ESHUTDOWN:
    case EREMOTEIO:
    case ENOMEDIUM:
    case EBADF:
      return Code::Gone;
    case ENAMETOOLONG:
    case EILSEQ:
      return Code::BadInput;
    default:
      return Code::Failed;
  }
}

std::string other(Medium medium) { return std::string("use another ") + name(medium); }

std::string gone_text(Medium medium, Doing doing, const std::string& why) {
  const std::string head = medium == Medium::Stick ? "the stick was pulled or does not answer"
                                                   : "the folder went away or does not answer";
  const std::string back =
      medium == Medium::Stick ? "put the stick back" : "make the folder reachable again";
  if (doing == Doing::Reading) return head + " " + why + ": " + back + " and try again";
  return head + " " + why + ": the journal on the tablet is safe; " + back + " and write again";
}

std::string read_only_text(Medium medium, int err, const std::string& path) {
  const std::string the = std::string("the ") + name(medium);
  if (err == EROFS && medium == Medium::Stick)
    return the + " is read-only: slide its lock switch, check it for errors on a computer, or " +
           other(medium);
  if (err == EROFS) return the + " is read-only: " + other(medium);
  return the + " may not be written (" + path + ": " + system_text(err) +
         "): change its permissions or " + other(medium);
}

}  // namespace

const char* name(Medium medium) { return medium == Medium::Stick ? "stick" : "folder"; }

Status trouble(Medium medium, Doing doing, int err, const std::string& path) {
  const std::string why = "(" + path + ": " + system_text(err) + ")";
  const Code code = code_of(err);
  switch (code) {
    case Code::Full:
      return {code, std::string("the ") + name(medium) + " is full " + why +
                        ": free some space or " + other(medium)};
    case Code::ReadOnly:
      if (doing == Doing::Writing) return {code, read_only_text(medium, err, path)};
      return {Code::Failed, "this may not be read " + why + ": change its permissions"};
    case Code::Gone:
      return {code, gone_text(medium, doing, why)};
    case Code::BadInput:
      return {code, std::string("the ") + name(medium) + " refuses a file name " + why + ": " +
                        other(medium)};
    default:
      return {code, std::string("the ") + name(medium) + " could not be " +
                        (doing == Doing::Writing ? "written " : "read ") + why +
                        ": try again, or " + other(medium)};
  }
}

Status no_room(Medium medium, std::uint64_t needed, std::uint64_t free) {
  const std::string the = std::string("the ") + name(medium) + " is full: ";
  if (free >= needed)
    return {Code::Full, the + "it takes no more files although " + megabytes(free, false) +
                            " are free; remove old files from it or " + other(medium)};
  return {Code::Full, the + megabytes(needed, true) + " needed, " + megabytes(free, false) +
                          " free; free some space or " + other(medium)};
}

std::string megabytes(std::uint64_t bytes, bool up) {
  constexpr std::uint64_t kMegabyte = 1'000'000, kTenth = kMegabyte / 10;
  if (bytes < 10 * kMegabyte) {
    const std::uint64_t tenths = bytes / kTenth + (up && bytes % kTenth != 0 ? 1 : 0);
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " MB";
  }
  return std::to_string(bytes / kMegabyte + (up && bytes % kMegabyte != 0 ? 1 : 0)) + " MB";
}

}  // namespace storage
