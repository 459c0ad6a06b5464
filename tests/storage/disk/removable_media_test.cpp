// Finding sticks in mountinfo. The lines follow the format of proc(5), /proc/pid/mountinfo
// (manual pages 6.03), whose own example line is one of them; devices and names are invented.
#include "storage/disk/removable_media.h"

#include <doctest/doctest.h>
#include <poll.h>
#include <sys/sysmacros.h>

#include "tests/support/bag_fixture.h"

namespace removable_media_test {

using storage::Stick;
using storage::sticks;

namespace {

const std::string kTablet =
    "22 27 0:21 / /proc rw,relatime - proc proc rw\n"
    "24 27 0:6 / /dev rw,relatime shared:2 - devtmpfs devtmpfs rw,size=1233k,mode=755\n"
    "27 1 179:2 / / rw,noatime shared:1 - ext4 /dev/mmcblk0p2 rw\n"
    "28 27 179:1 / /boot/efi rw,relatime shared:30 - vfat /dev/mmcblk0p1 rw,utf8\n"
    "29 27 179:3 / /home rw,relatime shared:31 - ext4 /dev/mmcblk0p3 rw\n"
    "30 27 0:40 / /run rw,nosuid shared:5 - tmpfs tmpfs rw,size=800k\n";

std::vector<std::string> paths(const std::string& lines) {
  std::vector<std::string> out;
  for (const Stick& stick : sticks(kTablet + lines)) out.push_back(stick.path);
  return out;
}

using Paths = std::vector<std::string>;

}  // namespace

TEST_CASE("a tablet without a stick has none") { CHECK(paths("").empty()); }

TEST_CASE("a stick is told with its name, medium and place") {
  const auto found = sticks(
      kTablet + "60 30 8:17 / /media/sdb1 rw,noatime,nosuid shared:9 - vfat /dev/sdb1 rw,flush\n");
  REQUIRE(found.size() == 1);
  CHECK(found[0].path == "/media/sdb1");
  CHECK(found[0].name == "sdb1");
  CHECK(found[0].file_system == "vfat");
  CHECK(found[0].source == "/dev/sdb1");
  CHECK_FALSE(found[0].read_only);
  CHECK(found[0].device == makedev(8, 17));
}

TEST_CASE(
    "octal escapes are undone: space, tab, line end, backslash, and letters stay as they are") {
  const auto found = sticks(
      "60 30 8:17 / /run/media/kim/BEE\\040LOG\\134\\011\\012x rw - vfat "
      "/dev/sdb1 rw\n"
      "61 30 8:33 / /run/media/kim/\xc3\xa9t\xc3\xa9\\0 rw - exfat /dev/sdc1 rw\n");
  REQUIRE(found.size() == 2);
  CHECK(found[0].path == "/run/media/kim/BEE LOG\\\t\nx");
  CHECK(found[0].name == "BEE LOG\\??x");
  CHECK(found[1].name == "\xc3\xa9t\xc3\xa9\\0");
}

namespace {

struct Line {
  std::string name, line;
  bool taken;
};
const Line kLines[] = {
    {"the example of proc(5): ext3 elsewhere",
     "36 35 98:0 /mnt1 /mnt2 rw,noatime master:1 - ext3 /dev/root rw,errors=continue", false},
    {"no optional field", "60 30 8:17 / /media/a rw - vfat /dev/sdb1 rw", true},
    {"several optional fields",
     "60 30 8:17 / /media/a rw shared:1 master:2 unbindable - vfat /dev/sdb1 rw", true},
    {"ntfs by FUSE", "60 30 8:17 / /media/a rw - fuseblk /dev/sdb1 rw,allow_other", true},
    {"ntfs by the kernel", "60 30 8:17 / /media/a rw - ntfs3 /dev/sdb1 rw", true},
    {"a FUSE type with a subtype", "60 30 8:17 / /x rw - fuseblk.exfat /dev/sdb1 rw", true},
    {"vfat mounted by hand", "60 27 8:17 / /home/kim/stick rw - vfat /dev/sdb1 rw", true},
    {"ext4 below /media", "60 27 8:17 / /media/a rw - ext4 /dev/sdb1 rw", true},
    {"ext4 at /mnt", "60 27 8:17 / /mnt rw - ext4 /dev/sdb1 rw", true},
    {"ext4 elsewhere", "60 27 8:17 / /srv/a rw - ext4 /dev/sdb1 rw", false},
    {"a place that only begins alike", "60 27 8:17 / /mediation rw - ext4 /dev/sdb1 rw", false},
    {"the root disk bound elsewhere", "60 27 179:2 /srv /mnt/a rw - ext4 /dev/mmcblk0p2 rw", false},
    {"the boot partition bound elsewhere", "60 27 179:1 / /mnt/a rw - vfat /dev/mmcblk0p1 rw",
     false},
    {"a boot partition of its own", "60 27 179:9 / /boot/firmware rw - vfat /dev/x rw", false},
    {"memory below /media", "60 27 0:90 / /media/a rw - tmpfs tmpfs rw", false},
    {"a network drive below /mnt", "60 27 0:91 / /mnt/a rw - nfs4 box:/x rw", false},
    {"automount only", "60 27 0:92 / /media/a rw - autofs systemd-1 rw", false},
    {"cut short", "60 27 8:17 / /media/a rw - vfat", false},
    {"no separator", "60 27 8:17 / /media/a rw vfat /dev/sdb1 rw x y z", false},
    {"rubbish", "- - - - - -", false},
};

}  // namespace

TEST_CASE("each line is taken or left for its own reason") {
  for (const Line& r : kLines) {
    INFO(r.name);
    CHECK(paths(r.line + "\n").size() == (r.taken ? 1 : 0));
  }
}

TEST_CASE("a stick is read-only when the mount or the medium says so") {
  CHECK(sticks("60 30 8:17 / /media/a ro,noatime - vfat /dev/sdb1 rw\n")[0].read_only);
  CHECK(sticks("60 30 8:17 / /media/a rw - vfat /dev/sdb1 ro,errors=remount-ro\n")[0].read_only);
  CHECK_FALSE(
      sticks("60 30 8:17 / /media/a rw - vfat /dev/sdb1 rw,errors=remount-ro\n")[0].read_only);
}

TEST_CASE("one stick mounted twice counts once, two sticks twice, in the order of plugging") {
  CHECK(paths("60 30 8:17 / /media/b rw - vfat /dev/sdb1 rw\n"
              "61 30 8:17 / /media/again rw - vfat /dev/sdb1 rw\n"
              "62 30 8:33 / /media/a rw - exfat /dev/sdc1 rw\n") == Paths{"/media/b", "/media/a"});
}

// proc(5): of mounts stacked at one place, the top-most is no parent of another one there.
TEST_CASE("of mounts stacked at one place only the top-most counts") {
  CHECK(paths("60 27 0:92 / /media/a rw - autofs systemd-1 rw\n"
              "61 60 8:17 / /media/a rw - vfat /dev/sdb1 rw\n") == Paths{"/media/a"});
  CHECK(paths("60 27 8:17 / /media/a rw - vfat /dev/sdb1 rw\n"
              "61 60 0:93 / /media/a rw - tmpfs none rw\n")
            .empty());
}

TEST_CASE("a device number is not claimed where files on it show another one") {
  CHECK_FALSE(sticks("60 30 0:50 /@ /media/a rw - btrfs /dev/sdb1 rw\n")[0].device);
}

TEST_CASE("a folder chosen by hand works as a stick, and a bundle goes onto it") {
  const bags::TempFolder t;
  const auto stick = storage::folder_as_stick(t.path() + "/");
  REQUIRE(stick.ok());
  CHECK(stick.value().path == t.path());
  CHECK(stick.value().medium == storage::Medium::Folder);
  auto request = bags::evening(stick.value().path);
  request.medium = stick.value().medium;
  request.device = stick.value().device;
  CHECK(storage::write_bag(request).ok());
  CHECK(storage::folder_as_stick(t.path() + "/no").status().code() == engine::Code::NotFound);
  CHECK(storage::folder_as_stick("").status().code() == engine::Code::NotFound);
}

TEST_CASE("free bytes are those of the medium") {
  const bags::SmallMedium m("size=512k");
  if (!m.mounted()) {
    MESSAGE("SKIPPED: mounting a medium is not permitted here");
    return;
  }
  CHECK(storage::free_bytes(m.path()).value() == 512u * 1024);
  CHECK(storage::free_bytes(m.path() + "/no").status().code() == engine::Code::Gone);
}

TEST_CASE("this machine's own mountinfo can be read and watched") {
  const auto text = storage::read_mountinfo();
  REQUIRE(text.ok());
  CHECK(text.value().find(" - ") != std::string::npos);
  storage::StickWatch watch;
  CHECK(watch.fd() >= 0);
  CHECK_FALSE(watch.changed());
  CHECK(watch.now() == sticks(text.value()));
}

TEST_CASE("the kernel wakes who waits on the watch when something is mounted") {
  if (!bags::may_mount()) {
    MESSAGE("SKIPPED: mounting a medium is not permitted here");
    return;
  }
  storage::StickWatch watch;
  pollfd wait{watch.fd(), POLLPRI, 0};
  (void)::poll(&wait, 1, 0);  // what happened before
  CHECK(::poll(&wait, 1, 0) == 0);
  const bags::SmallMedium m;
  CHECK(::poll(&wait, 1, 2000) == 1);
  CHECK((wait.revents & POLLPRI) != 0);
  CHECK_FALSE(watch.changed());  // memory is no stick
}

TEST_CASE("release flushes a folder and unmounts only what is a stick") {
  bags::SmallMedium m;
  if (!m.mounted()) {
    MESSAGE("SKIPPED: mounting a medium is not permitted here");
    return;
  }
  CHECK(storage::release(m.path()).value() == storage::Released::Flushed);
  const std::string line = "60 30 8:17 / " + m.path() + " rw - vfat /dev/sdb1 rw\n";
  {
    const std::ofstream in_use(m.path() + "/open");
    const auto busy = storage::release(m.path(), line);
    CHECK(busy.status().code() == engine::Code::Busy);
    CHECK(busy.status().message().find("do not pull it") != std::string::npos);
  }
  CHECK(storage::release(m.path(), line).value() == storage::Released::Unmounted);
  CHECK(bags::names_in(m.path()).empty());
  CHECK(storage::release(m.path() + "/no", line).status().code() == engine::Code::Gone);
}

}  // namespace removable_media_test
