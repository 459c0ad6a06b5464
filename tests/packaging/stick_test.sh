#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What the tablet does about a stick, on a real file system of this machine's: mounted without programs
# and devices, handed to the user, unmounted when asked and only then.
set -eu
source=$1
# shellcheck disable=SC1091
. "$source/tests/commands/mounts.sh"
work=$(mktemp -d)
export DUSKWALK_MEDIA=$work/media DUSKWALK_STICKS=$work/records
loop=""
end() {
  umount "$DUSKWALK_MEDIA"/* 2>/dev/null || true
  [ -z "$loop" ] || losetup -d "$loop" 2>/dev/null || true
  rm -rf "$work"
}
trap end EXIT
stick() { "$source/packaging/tablet/stick" "$@"; }
fail() {
  echo "FAIL: $*" >&2
  exit 1
}

truncate -s 16M "$work/image"
mkfs.ext4 -q -L "Bee Yard/1" "$work/image"
loop=$(losetup -f --show "$work/image" 2>/dev/null) || { echo "skipped: no loop devices"; exit 77; }
name=${loop#/dev/}
point=$DUSKWALK_MEDIA/Bee_Yard_1

stick in "$name" || fail "it was not mounted"
line=$(grep " $point " /proc/self/mountinfo) || fail "it is not at $point: $(cat /proc/self/mountinfo)"
for option in nosuid nodev noexec; do
  [[ $line == *$option* ]] || fail "mounted without $option: $line"
done
[ "$(cat "$DUSKWALK_STICKS/$name")" = "$point" ] || fail "nobody remembers where it is"

# Nobody else's mounts are let go of.
[ "$(echo / | stick release)" = refused ] || fail "/ was not refused"
[ "$(echo "$point/.." | stick release)" = refused ] || fail "a path beside it was not refused"
[ "$(printf '' | stick release)" = refused ] || fail "no path was not refused"

# One that is written to stays.
exec 3>"$point/log"
[ "$(echo "$point" | stick release)" = busy ] || fail "a stick that is written to was let go of"
exec 3>&-
[ "$(echo "$point" | stick release)" = unmounted ] || fail "it was not let go of"
! grep -q " $point " /proc/self/mountinfo || fail "it is still mounted"
[ ! -e "$DUSKWALK_STICKS/$name" ] || fail "the record stayed"

# Pulled without asking: nothing of it stays behind.
stick in "$name"
stick out "$name"
! grep -q " $point " /proc/self/mountinfo || fail "a stick that was pulled is still mounted"
stick out "$name" || fail "pulled twice is a fault"

# What is no file system is said in one line.
dd if=/dev/zero of="$loop" bs=1M count=16 status=none conv=fsync
! stick in "$name" 2>"$work/said" || fail "zeros were mounted"
[ "$(wc -l <"$work/said")" = 1 ] || fail "not one line: $(cat "$work/said")"
! grep -q " $point" /proc/self/mountinfo || fail "something was left mounted"
