#include "storage/disk/random.h"
#include "storage/sheets/spreadsheet.h"
#include "storage/store/guarded_fold.h"
#include "storage/text/csv_out.h"
#include "tests/fuzz/targets.h"

namespace {

using namespace std::chrono;

// A farm that sheets are read into, as `duskwalk read` does it.
struct Keeper {
  engine::Farm farm;
  storage::IdMaker ids{11};
  engine::DeviceId device{ids(1)};
  engine::Stamp now = *engine::stamp_from_rfc3339("2026-08-20T19:00:00-07:00");

  engine::Result<storage::SheetReading> ask(std::string_view text) {
    return storage::read_spreadsheet(farm, text, engine::local_date(now));
  }
  void append(const engine::Body& body) {
    const engine::Event e{{device, farm.last_seq[device] + 1}, now, body};
    fuzz::must(storage::GuardedFold().one(farm, e).ok(), "what a sheet gives can be appended");
  }
};

Keeper with_two_colonies() {
  Keeper keeper;
  const auto reading = keeper.ask("Yard,Colony,Boxes\nThistle Bank,B1,1\nThistle Bank,B2,2\n");
  for (const engine::Body& body : reading.value().events) keeper.append(body);
  return keeper;
}

}  // namespace

void fuzz::sheet(std::string_view bytes) {
  Keeper keeper = with_two_colonies();
  const auto reading = keeper.ask(bytes);
  if (!reading.ok()) {
    must(!reading.status().message().empty(), "a refused sheet says why");
    return;
  }
  for (const engine::Body& body : reading.value().events) keeper.append(body);
  (void)storage::report_text(reading.value().report);
  const auto again = keeper.ask(bytes);
  must(again.ok() && again.value().events.empty(), "a second reading changes nothing");
}
