# Sourced by tests that need a medium of their own: small, or read-only. Starts the script again
# where mounts are its own and end with it; 77 where that is forbidden.
# shellcheck shell=bash
if [ "${DUSKWALK_OWN_MOUNTS:-}" != yes ]; then
  unshare -m true 2>/dev/null || { echo "skipped: may not mount here (not root)"; exit 77; }
  DUSKWALK_OWN_MOUNTS=yes exec unshare -m "$0" "$@"
fi
# medium FOLDER SIZE: a real file system in memory, mounted at FOLDER
medium() {
  mkdir -p "$1"
  mount -t tmpfs -o "size=$2" none "$1" 2>/dev/null || { echo "skipped: may not mount here"; exit 77; }
}
