#include "storage/journal/backup.h"

#include <fmt/format.h>

#include "ui/commands/commands.h"

namespace ui {

int backup_command(const BackupCall& call, const Surroundings& around) {
  const auto store = open_whole_store(call, around, false);
  if (!store.ok()) return say_failure(store.status());
  const engine::Status copied = store.value().journal().backup_to(call.file);
  if (!copied.ok()) return say_failure(copied);
  fmt::print("{}: {} entries, read back and whole.\n", call.file, store.value().journal().size());
  return 0;
}

int restore_command(const RestoreCall& call, const Surroundings& around) {
  const auto path = store_file(call, around);
  if (!path.ok()) return say_failure(path.status());
  const std::string device =
      engine::uuid_text(around.new_id(around.now().at.time_since_epoch().count()));
  const auto restored = storage::restore_backup(call.file, path.value(), device);
  if (!restored.ok()) return say_failure(restored.status());
  fmt::print("{}: {} entries. This store goes on under a new tablet id.\n", path.value(),
             restored.value().events);
  return 0;
}

}  // namespace ui
