// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <optional>

#include "storage/disk/part_file.h"
#include "storage/disk/whole_file.h"
#include "storage/journal/journal_db.h"
#include "storage/update/update_file.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

// As Debian names what this program was compiled for.
#if defined(__x86_64__)
constexpr const char* kArchitecture = "amd64";
#elif defined(__aarch64__)
constexpr const char* kArchitecture = "arm64";
#else
constexpr const char* kArchitecture = "another";
#endif

engine::Result<storage::UpdateKey> key_from(const std::string& file) {
  const auto text = storage::read_whole_file(file, 1024);
  if (!text.ok()) return text.status();
  const auto key = storage::read_update_key(text.value());
  if (!key)
    return engine::Status{engine::Code::BadInput, file + ": is no key of 64 hexadecimal digits"};
  return *key;
}

// What was checked, in a file of its own that appears only when all of it was.
engine::Result<storage::UpdateHeader> check(const UpdateCall& call, const storage::UpdateKey& key) {
  const storage::RunningSystem running{DUSKWALK_VERSION, kArchitecture, storage::kFormat};
  if (call.payload.empty()) return storage::check_update(call.file, key, running);
  auto part = storage::PartFile::make(call.payload, storage::PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  auto header = storage::check_update(
      call.file, key, running, [&](std::string_view piece) { return part.value().write(piece); });
  if (!header.ok()) return header;
  if (engine::Status kept = part.value().finish(storage::PartFile::Over::WhatIsThere); !kept.ok())
    return kept;
  return header;
}

}  // namespace

int update_command(const UpdateCall& call) {
  const auto key = key_from(call.key);
  if (!key.ok()) return say_failure(key.status());
  const auto header = check(call, key.value());
  if (!header.ok()) return say_failure(header.status());
  say("The update to version {} is whole and signed.\n", header.value().version);
  return 0;
}

}  // namespace ui
