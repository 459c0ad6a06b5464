#include "storage/disk/paths.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "storage/disk/files.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string absolute_path(const Environment& environment, const std::string& key) {
  const auto found = environment.find(key);
  if (found == environment.end() || !found->second.starts_with('/')) return {};
  return found->second;
}

Status cannot_be_made(const std::filesystem::path& folder, int why) {
  return {why == EROFS ? Code::ReadOnly : Code::Failed,
          fmt::format("{}: the folder cannot be made: {}", folder.string(), std::strerror(why))};
}

}  // namespace

engine::Result<std::string> data_folder(const Environment& environment) {
  if (const std::string data = absolute_path(environment, "XDG_DATA_HOME"); !data.empty())
    return data + "/duskwalk";
  if (const std::string home = absolute_path(environment, "HOME"); !home.empty())
    return home + "/.local/share/duskwalk";
  return Status(Code::NotFound,
                "HOME is not set, so there is no place for the store: say where with --store FILE");
}

engine::Result<std::string> store_path(const std::string& chosen, const Environment& environment) {
  if (!chosen.empty()) return chosen;
  const auto set = environment.find("DUSKWALK_STORE");
  if (set != environment.end() && !set->second.empty()) return set->second;
  auto folder = data_folder(environment);
  if (!folder.ok()) return folder;
  return folder.value() + "/duskwalk.journal";
}

engine::Status make_folders_for(const std::string& file) {
  namespace fs = std::filesystem;
  std::error_code unknown;
  DiskFiles disk;
  fs::path so_far;
  for (const auto& part : fs::absolute(file, unknown).parent_path()) {
    const fs::path above = so_far;
    so_far /= part;
    if (mkdir(so_far.c_str(), 0700) != 0) {
      const int why = errno;
      // A folder that is there but may not be written answers EROFS or EACCES instead of EEXIST.
      if (why == EEXIST || why == EISDIR || fs::is_directory(so_far, unknown)) continue;
      return cannot_be_made(so_far, why);
    }
    (void)::chmod(so_far.c_str(), 0700);  // the umask may have taken the owner's rights away
    int why = disk.sync_folder(so_far);
    if (why == 0) why = disk.sync_folder(above);
    if (why != 0) return cannot_be_made(so_far, why);
  }
  return {};
}

std::string exchange_notes_path(const std::string& store_path) { return store_path + ".exchange"; }

}  // namespace storage
