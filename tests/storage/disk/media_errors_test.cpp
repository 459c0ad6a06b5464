// The one line a keeper reads when a stick or folder fails.
#include "storage/disk/media_errors.h"

#include <doctest/doctest.h>

#include <cerrno>

namespace media_errors_test {

using engine::Code;
using storage::Doing;
using storage::Medium;
using storage::trouble;

namespace {

struct Errno {
  std::string name;
  int err;
  Code want;
};
const Errno kErrnos[] = {
    {"no space", ENOSPC, Code::Full},        {"quota", EDQUOT, Code::Full},
    {"write lock", EROFS, Code::ReadOnly},   {"no right", EACCES, Code::ReadOnly},
    {"not ours", EPERM, Code::ReadOnly},     {"input/output", EIO, Code::Gone},
    {"no device", ENODEV, Code::Gone},       {"no address", ENXIO, Code::Gone},
    {"no entry", ENOENT, Code::Gone},        {"network drive", ESTALE, Code::Gone},
    {"not connected", ENOTCONN, Code::Gone}, {"long name", ENAMETOOLONG, Code::BadInput},
    {"no memory", ENOMEM, Code::Failed},     {"files open", EMFILE, Code::Failed},
};

}  // namespace

TEST_CASE("each errno of the system becomes the code that says what to do") {
  for (const Errno& r : kErrnos) {
    INFO(r.name);
    const engine::Status s = trouble(Medium::Stick, Doing::Writing, r.err, "x/y");
    CHECK(s.code() == r.want);
    CHECK(s.message().find("stick") != std::string::npos);
    CHECK(s.message().find('\n') == std::string::npos);
  }
}

TEST_CASE("reading never blames a write lock nor speaks of writing again") {
  const engine::Status s = trouble(Medium::Folder, Doing::Reading, EACCES, "x");
  CHECK(s.code() == Code::Failed);
  CHECK(trouble(Medium::Folder, Doing::Reading, EIO, "x").message().find("write") ==
        std::string::npos);
}

TEST_CASE("megabytes round needed up and free down") {
  CHECK(storage::megabytes(0, true) == "0.0 MB");
  CHECK(storage::megabytes(1, true) == "0.1 MB");
  CHECK(storage::megabytes(199'999, false) == "0.1 MB");
  CHECK(storage::megabytes(9'999'999, true) == "10.0 MB");
  CHECK(storage::megabytes(10'000'001, true) == "11 MB");
  CHECK(storage::megabytes(10'999'999, false) == "10 MB");
}

TEST_CASE("a full stick names both numbers; with room left it says that files are the limit") {
  CHECK(storage::no_room(Medium::Stick, 12'000'000, 3'000'000).message() ==
        "the stick is full: 12 MB needed, 3.0 MB free; free some space or use another stick");
  CHECK(storage::no_room(Medium::Folder, 1000, 30'000'000).message().find("no more files") !=
        std::string::npos);
}

}  // namespace media_errors_test
