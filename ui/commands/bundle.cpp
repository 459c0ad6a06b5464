#include <fmt/format.h>

#include "engine/register/words.h"
#include "storage/bag.h"
#include "storage/day_bundle.h"
#include "storage/stick.h"
#include "ui/commands/commands.h"

namespace ui {
namespace {

// A stick is written to as a stick, whatever way its folder was named.
void note_medium(storage::BagRequest& request) {
  const auto mounts = storage::read_mountinfo();
  if (!mounts.ok()) return;
  for (const storage::Stick& stick : storage::sticks(mounts.value()))
    if (request.parent == stick.path || request.parent.starts_with(stick.path + "/"))
      request.medium = stick.medium, request.device = stick.device;
}

}  // namespace

int bundle_command(const BundleCall& call, const Surroundings& around) {
  const auto store = open_store(call, around, false);
  if (!store.ok()) return say_failure(store.status());
  const auto records = records_of(store.value());
  if (!records.ok()) return say_failure(records.status());
  const engine::Stamp now = around.now();
  storage::BagRequest request;
  request.parent = call.folder;
  note_medium(request);
  request.device_short = engine::short_device(store.value().device());
  request.day = engine::iso_date(call.day.value_or(engine::local_date(now)));
  request.bagging_date = engine::iso_date(engine::local_date(now));
  for (auto& [path, bytes] :
       storage::payload_of_day(store.value().farm(), records.value(), call.day))
    request.payload.push_back({path, std::move(bytes)});
  const auto written = storage::write_bag(request);
  if (!written.ok()) return say_failure(written.status());
  fmt::print("{}\n{}\n", written.value().folder, written.value().say);
  return 0;
}

}  // namespace ui
