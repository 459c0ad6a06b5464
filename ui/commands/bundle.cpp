#include <fmt/format.h>

#include <algorithm>

#include "engine/words/words.h"
#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/bundle/day_bundle.h"
#include "storage/disk/removable_media.h"
#include "ui/app/app_assets.h"
#include "ui/commands/bag_progress.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"
#include "ui/commands/stick_holding.h"

namespace ui {
namespace {

// A stick is written to as a stick, whatever way its folder was named.
void note_medium(storage::BagRequest& request) {
  const auto mounts = storage::read_mountinfo();
  if (!mounts.ok()) return;
  if (const auto stick = stick_holding(request.parent, storage::sticks(mounts.value())))
    request.medium = stick->medium, request.device = stick->device;
}

// A stick that the command line did not mount it does not unmount either: it is flushed.
engine::Status flush_stick(const std::string& folder) {
  const auto released = storage::release(folder, std::string_view{});
  return released.ok() ? engine::Status{} : released.status();
}

bool wrote_on(const std::vector<storage::Sealed>& records, engine::Date day) {
  return std::any_of(records.begin(), records.end(), [&](const storage::Sealed& sealed) {
    return storage::local_date(sealed.record) == day;
  });
}

// The outfit's own has the entries and who signed them; what others get has neither.
void fill(storage::BagRequest& request, const BundleCall& call, const storage::Store& store,
          const std::vector<storage::Sealed>& records, const Surroundings& around) {
  const auto add = [&request](storage::PayloadFiles files) {
    for (auto& [path, bytes] : files) request.payload.push_back({path, std::move(bytes)});
  };
  if (call.for_others)
    return add(storage::payload_for_others(store.farm(), records, call.day, call.with_private));
  const auto assets = load_assets(around.assets, around.environment);
  const auto methods = assets.ok() ? assets.value().methods : std::vector<engine::MethodRules>{};
  storage::DayBundle day = storage::bundle_of_day(store.farm(), records, call.day, methods);
  request.readme = std::move(day.readme);
  add(std::move(day.files));
  std::string text = storage::signatures_of_day(store, records, call.day);
  if (!text.empty()) request.payload.push_back({storage::kSignaturesFile, std::move(text)});
}

}  // namespace

int bundle_command(const BundleCall& call, const Surroundings& around) {
  const auto store = open_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  const auto records = records_of(store.value());
  if (!records.ok()) return say_failure(records.status());
  if (call.day && !wrote_on(records.value(), *call.day))
    return say_failure(engine::Code::BadInput, fmt::format("--day: nothing was written on {}",
                                                           engine::iso_date(*call.day)));
  const engine::Stamp now = around.now();
  storage::BagRequest request;
  request.parent = call.folder;
  note_medium(request);
  request.stopped = around.stopped;
  request.device_short = engine::short_device(store.value().device());
  request.day = engine::iso_date(call.day.value_or(engine::local_date(now)));
  request.bagging_date = engine::iso_date(engine::local_date(now));
  fill(request, call, store.value(), records.value(), around);
  ProgressLine line([&around] { return around.now().since_boot; });
  const auto written = storage::write_bag(request, of_bag(line.progress()));
  line.end();
  if (!written.ok()) return say_failure(written.status());
  const bool on_stick = request.medium == storage::Medium::Stick;
  if (on_stick)
    if (const engine::Status flushed = flush_stick(request.parent); !flushed.ok())
      return say_failure(flushed);
  say("{}\n{}\n", written.value().folder, written.value().say);
  if (on_stick) say("Everything is on the stick: safe to pull.\n");
  return 0;
}

}  // namespace ui
