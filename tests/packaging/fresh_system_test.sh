#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A keeper's way with the package on a fresh Debian 12: installs one file, works, gets a newer one,
# removes it. What the keeper wrote stays; of the package nothing stays.
set -eu
build=$1 source=$2
unshare -m true 2>/dev/null && command -v mmdebstrap >/dev/null || {
  echo "skipped: only root, with mmdebstrap, can make a system in a folder"
  exit 77
}
work=$(mktemp -d)
root=$work/root
trap 'rm -rf "$work"' EXIT

fail() {
  echo "FAIL: $*" >&2
  exit 1
}
# With a /proc of its own that ends with the command.
inside() {
  unshare -m sh -c 'mount -t proc proc "$0/proc" && exec chroot "$0" "$@"' "$root" env -i HOME=/root \
    PATH=/usr/sbin:/usr/bin:/sbin:/bin DEBIAN_FRONTEND=noninteractive "$@"
}
apt() { inside apt-get -qq -y -o Dpkg::Use-Pty=0 "$@" >"$work/apt" 2>&1 || fail "$(cat "$work/apt")"; }
files() { (cd "$root" && find etc lib usr -xdev ! -path '*/__pycache__*' | sort); }

gone() {  # DOING: of the package nothing is left, of the store all
  local left
  [ "$(sha256sum <"$store")" = "$sum" ] || fail "$1 the package touched the store"
  left=$(files | grep -i duskwalk || true)
  [ -z "$left" ] || fail "$1 left: $left"
}

# The same package, as a later version.
newer() {
  dpkg-deb -R "$1" "$work/newer"
  sed -i 's/^Version: .*/&+1/' "$work/newer/DEBIAN/control"
  dpkg-deb --root-owner-group -b "$work/newer" "$root/tmp/newer.deb" >/dev/null
}

# A package from elsewhere is tested by its path.
package=${DUSKWALK_PACKAGE:-$("$source/packaging/package.sh" "$build")}
if ! mmdebstrap --quiet --variant=apt bookworm "$root" 2>"$work/made"; then
  cat "$work/made" >&2
  echo "skipped: no fresh system could be made"
  exit 77
fi
cp "$package" "$root/tmp/duskwalk.deb"
newer "$package"
cp "$source/demo/"{evening,season}.play "$source"/demo/*.csv "$root/tmp/"

# 1. One file installs, with all that it needs.
apt update
apt install --no-install-recommends /tmp/duskwalk.deb
inside duskwalk --version >"$work/version"
grep -q '^duskwalk [0-9]' "$work/version" || fail "it does not start: $(cat "$work/version")"

# 2. It finds its assets and letters: a sheet is read, and the real screens draw a picture.
inside duskwalk read /tmp/yards.csv >/dev/null
inside duskwalk due --on 2026-08-14 >/dev/null
printf 'screen 1280x800 10.1in\nat 2026-08-14T18:00:00-05:00\nshot today\n' >"$root/tmp/look.play"
inside duskwalk play /tmp/look.play --out /tmp/pictures >"$work/played" 2>&1 ||
  fail "the screens: $(cat "$work/played")"
picture=$(find "$root/tmp/pictures" -name '*.png' -size +2k | head -n 1)
[ -n "$picture" ] || fail "the screens drew no picture"
store=$root/root/.local/share/duskwalk/duskwalk.journal
[ -s "$store" ] || fail "no store where the manual says"

# 3. All asleep that only a tablet wants.
[ ! -e "$root/etc/systemd/system/multi-user.target.wants/duskwalk.service" ] ||
  fail "the package makes a tablet of any machine"

# 4. A newer one takes its place; what was written stays and is read.
apt install --no-install-recommends /tmp/newer.deb
inside dpkg-query -W -f '${Version}' duskwalk | grep -q '+1$' || fail "it was not upgraded"
inside duskwalk verify >/dev/null || fail "the store is not whole after the upgrade"

# 5. Removed, and installed again and purged: nothing of it is left but the keeper's own.
inside dpkg-query --listfiles duskwalk >"$work/list"
sum=$(sha256sum <"$store")
apt remove duskwalk
gone "removing"
apt install --no-install-recommends /tmp/newer.deb
apt purge duskwalk
gone "purging"
[ "$(wc -l <"$work/list")" -gt 20 ] || fail "the package had hardly a file"
echo "installed, used, upgraded, removed and purged on a fresh system"
