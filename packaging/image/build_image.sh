#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Builds a disk image of a tablet that boots (UEFI) into Duskwalk's screens and does nothing else.
# Needs no root devices: no loop device, no mount; root or user namespaces for mmdebstrap.
#   partitions: the loader with kernel and initrd (FAT), the system (ext4, read-only). At its first
#   start the tablet makes two more in the room that is left: the other system, for updates, and the
#   data.
# Usage: build_image.sh PACKAGE.deb OUT.img [KERNEL_WORDS]
#   The architecture is the package's; one that is not this machine's needs qemu-user-static.
#   DUSKWALK_UPDATE_KEY: file with the public key of those who sign updates; none: the tablet takes
#   no updates.
set -eu
[ $# -ge 2 ] || { sed -n '9,12s/^# //p' "$0" >&2; exit 2; }
package=$(realpath "$1") out=$2 more_words=${3:-}
here=$(cd "$(dirname "$0")" && pwd)
architecture=$(dpkg-deb -f "$package" Architecture)
case $architecture in
  amd64) kernel=linux-image-amd64 loader=systemd-bootx64.efi boots_as=BOOTX64.EFI ;;
  arm64) kernel=linux-image-arm64 loader=systemd-bootaa64.efi boots_as=BOOTAA64.EFI ;;
  *) echo "no image is made for $architecture" >&2; exit 1 ;;
esac
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# Manuals and translations of others, and drivers for what no tablet has.
leave_out=(--dpkgopt='path-exclude=/usr/share/doc/*' --dpkgopt='path-include=/usr/share/doc/*/copyright'
  --dpkgopt='path-exclude=/usr/share/man/*' --dpkgopt='path-exclude=/usr/share/locale/*'
  --dpkgopt='path-exclude=/usr/share/info/*')
for driver in net media infiniband isdn scsi/lpfc scsi/qla2xxx scsi/bfa iio/imu staging \
  gpu/drm/nouveau gpu/drm/amd gpu/drm/radeon; do
  leave_out+=(--dpkgopt="path-exclude=/lib/modules/*/kernel/drivers/$driver/*")
done
for part in net fs/ceph fs/nfs fs/nfsd fs/ocfs2 fs/gfs2 fs/xfs fs/btrfs fs/smb fs/afs fs/reiserfs sound/pci/lola; do
  leave_out+=(--dpkgopt="path-exclude=/lib/modules/*/kernel/$part/*")
done

make_root() {
  mmdebstrap --quiet --variant=minbase --architectures="$architecture" "${leave_out[@]}" \
    --include="$kernel,systemd-sysv,udev,systemd-boot,initramfs-tools,zstd,e2fsprogs,exfatprogs,dosfstools,fdisk,kmod,mount,util-linux,libgl1-mesa-dri" \
    --customize-hook="copy-in $work/duskwalk.deb /tmp" \
    --customize-hook='chroot "$1" env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends /tmp/duskwalk.deb >/dev/null' \
    --customize-hook="sync-in $here/root /" \
    --customize-hook='chroot "$1" duskwalk-tablet on' \
    --customize-hook='chroot "$1" systemctl --quiet enable duskwalk-whole.service' \
    --customize-hook='chroot "$1" passwd --quiet --lock root' \
    --customize-hook='rm -f "$1"/tmp/duskwalk.deb "$1"/etc/machine-id "$1"/etc/resolv.conf "$1"/etc/hostname && : >"$1"/etc/machine-id && echo duskwalk >"$1"/etc/hostname' \
    ${DUSKWALK_UPDATE_KEY:+--customize-hook="upload $DUSKWALK_UPDATE_KEY /usr/share/duskwalk/tablet/update.pub"} \
    bookworm "$work/root.tar"
  mkdir "$work/root"
  tar -C "$work/root" -xf "$work/root.tar" --exclude='./dev/*'
  rm "$work/root.tar"
}

# Kernel, initrd and loader go onto the FAT partition; the entry counts three tries.
make_esp() {
  local entry=$work/entry version
  version=$(dpkg-deb -f "$package" Version)
  truncate -s 192M "$work/esp"
  mkfs.vfat -F 32 -n DUSKWALK "$work/esp" >/dev/null
  mmd -i "$work/esp" ::/EFI ::/EFI/BOOT ::/loader ::/loader/entries ::/a
  mcopy -i "$work/esp" "$work/root/usr/lib/systemd/boot/efi/$loader" "::/EFI/BOOT/$boots_as"
  mcopy -i "$work/esp" "$work"/root/boot/vmlinuz-* ::/a/vmlinuz
  mcopy -i "$work/esp" "$work"/root/boot/initrd.img-* ::/a/initrd
  printf 'timeout 0\neditor no\n' >"$work/loader"
  printf 'title Duskwalk\nversion %s\nlinux /a/vmlinuz\ninitrd /a/initrd\noptions %s\n' "$version" \
    "root=PARTLABEL=duskwalk-a ro quiet loglevel=0 systemd.show_status=no vt.global_cursor_default=0 $more_words" >"$entry"
  mcopy -i "$work/esp" "$work/loader" ::/loader/loader.conf
  mcopy -i "$work/esp" "$entry" ::/loader/entries/duskwalk-a+3.conf
  rm -rf "$work"/root/boot/*
}

make_disk() {
  local mib=1048576 used size
  used=$(du -s --block-size=$mib "$work/root" | cut -f 1)
  size=$((used * 112 / 100 + 48))
  mkfs.ext4 -q -L duskwalk-a -m 0 -O ^has_journal -d "$work/root" "$work/system" "${size}M" >/dev/null
  rm -f "$out"
  truncate -s $(((1 + 192 + size + 1) * mib)) "$out"
  sfdisk --quiet "$out" <<END
label: gpt
start=1MiB, size=192MiB, type=U, name=duskwalk-esp
size=${size}MiB, type=L, name=duskwalk-a
END
  dd if="$work/esp" of="$out" bs=$mib seek=1 conv=notrunc,sparse status=none
  dd if="$work/system" of="$out" bs=$mib seek=193 conv=notrunc,sparse status=none
  echo "$out: $architecture, system $used MiB, $(du --block-size=$mib "$out" | cut -f 1) MiB on the disk"
}

cp "$package" "$work/duskwalk.deb"
make_root
make_esp
make_disk
