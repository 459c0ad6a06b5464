#include "storage/journal/backup.h"

#include <fmt/format.h>

#include <filesystem>
#include <optional>

#include "storage/store/kept_setup.h"
#include "storage/store/repair.h"
#include "storage/trust/sealing.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

constexpr int kPages = 4096;  // copied between two looks at whether to stop: 16 MiB

// Of a store whose bytes cannot all be read no backup can be made; its files can be copied.
int copy_locked(const BackupCall& call, const storage::Store& store) {
  const engine::Status copied = storage::copy_as_it_is(store.journal().path(), call.file);
  if (!copied.ok()) return say_failure(copied);
  say("{}: copied as it is, not read back. {}\n", call.file, store.damage());
  return 0;
}

engine::Result<storage::Mended> begin_anew(const RestoreCall& call, const Surroundings& around,
                                           const std::string& mark) {
  const auto path = store_file(call, around);
  if (!path.ok()) return path.status();
  const auto kept = storage::set_aside(path.value(), mark);
  if (!kept.ok()) return kept.status();
  const auto anew = open_store(call, around, true);
  if (!anew.ok()) return anew.status();
  return storage::Mended{0, kept.value()};
}

int go_on(const RestoreCall& call, const Surroundings& around) {
  const engine::Stamp now = around.now();
  const std::string mark = "damaged-" + engine::iso_date(engine::local_date(now));
  auto store = open_store(call, around, false);
  const bool opens = store.ok();
  std::optional<storage::KeptSetup> before;
  if (opens) before.emplace(store.value());
  const engine::Code why = store.status().code();
  if (!opens && (why == engine::Code::Busy || why == engine::Code::NotFound))
    return say_failure(store.status());
  const auto done =
      opens ? storage::mend(store.value(), mark,
                            engine::uuid_text(around.new_id(now.at.time_since_epoch().count())))
            : begin_anew(call, around, mark);
  if (!done.ok()) return say_failure(done.status());
  if (before)
    if (const auto said = before->say_again(store.value(), now); !said.ok())
      return say_failure(said);
  say("{} entries could be read. The store goes on with them under a new tablet id; take in the "
      "newest backup and what other tablets have. What was locked is kept: {}\n",
      done.value().entries, done.value().kept);
  return 0;
}

}  // namespace

namespace {

engine::Status copy_store(const storage::Store& store, const std::string& to,
                          const Surroundings& around) {
  auto backup = storage::Backup::begin(store.journal(), to);
  if (!backup.ok()) return backup.status();
  ProgressLine line([&around] { return around.now().since_boot; });
  for (bool done = false; !done;) {
    if (const auto show = line.progress()) show("copying", 0, 0);
    if (around.stopped()) return {engine::Code::Failed, "stopped: no backup was made"};
    const auto stepped = backup.value().step(kPages);
    if (!stepped.ok()) return stepped.status();
    done = stepped.value();
  }
  return {};
}

// A file that lies beside the store for a moment, where all of it can be read anyway.
class PlainCopy {
 public:
  explicit PlainCopy(std::string path) : path_(std::move(path)) { remove(); }
  ~PlainCopy() { remove(); }
  PlainCopy(const PlainCopy&) = delete;
  PlainCopy& operator=(const PlainCopy&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  void remove() const {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  std::string path_;
};

engine::Status seal_store(const storage::Store& store, const BackupCall& call,
                          const Surroundings& around) {
  const auto passphrase = storage::read_passphrase(call.passphrase_file);
  if (!passphrase.ok()) return passphrase.status();
  const PlainCopy plain(store.journal().path() + ".to-seal");
  if (engine::Status copied = copy_store(store, plain.path(), around); !copied.ok()) return copied;
  return storage::seal_file(plain.path(), call.file, passphrase.value());
}

// A sealed backup is opened beside the store that is made of it.
engine::Result<storage::Restored> restore_from(const RestoreCall& call, const std::string& path,
                                               const std::string& device) {
  if (!storage::is_sealed_file(call.file)) {
    if (!call.passphrase_file.empty())
      return {engine::Code::BadInput, fmt::format("--seal: {} is not sealed", call.file)};
    return storage::restore_backup(call.file, path, device);
  }
  if (call.passphrase_file.empty())
    return {engine::Code::BadInput,
            fmt::format("{}: is sealed: name the file with its passphrase by --seal", call.file)};
  const auto passphrase = storage::read_passphrase(call.passphrase_file);
  if (!passphrase.ok()) return passphrase.status();
  const PlainCopy plain(path + ".unsealed");
  const engine::Status opened = storage::unseal_file(call.file, plain.path(), passphrase.value());
  if (!opened.ok()) return opened;
  return storage::restore_backup(plain.path(), path, device);
}

}  // namespace

int backup_command(const BackupCall& call, const Surroundings& around) {
  const auto store = open_any_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  if (store.value().journal().damage()) return copy_locked(call, store.value());
  const engine::Status done = call.passphrase_file.empty()
                                  ? copy_store(store.value(), call.file, around)
                                  : seal_store(store.value(), call, around);
  if (!done.ok()) return say_failure(done);
  say("{}: {} entries, read back and whole.\n", call.file, store.value().journal().size());
  return 0;
}

namespace {

// What was set on the tablet goes with it to its new id.
engine::Status keep_setup(const std::string& path, const std::string& was,
                          const engine::Stamp& now) {
  storage::JournalOptions options;
  options.create = false;
  auto store = storage::Store::open(path, options);
  if (!store.ok()) return store.status();
  const auto tablet = engine::uuid_from_text(was);
  if (!tablet || !store.value().writable().ok()) return store.value().writable();
  return storage::KeptSetup(store.value(), engine::DeviceId{*tablet}).say_again(store.value(), now);
}

}  // namespace

int restore_command(const RestoreCall& call, const Surroundings& around) {
  if (call.go_on == !call.file.empty())
    return say_failure(engine::Code::BadInput,
                       "restore: name the backup, or give --go-on and no file");
  if (call.go_on) return go_on(call, around);
  const auto path = store_file(call, around);
  if (!path.ok()) return say_failure(path.status());
  const std::string device =
      engine::uuid_text(around.new_id(around.now().at.time_since_epoch().count()));
  const auto restored = restore_from(call, path.value(), device);
  if (!restored.ok()) return say_failure(restored.status());
  const engine::Status kept = keep_setup(path.value(), restored.value().was, around.now());
  say("{}: {} entries. This store goes on under a new tablet id.\n", path.value(),
      restored.value().events);
  if (!kept.ok()) say("What was set on the tablet must be set again here: {}\n", kept.message());
  return 0;
}

}  // namespace ui
