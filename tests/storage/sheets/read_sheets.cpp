// tests/storage/sheets/read_sheets.cpp -- reads CSV files one after the other into an empty farm
// and prints what is in it then, one JSON line a thing: for csv_outside.sh, which lets others write
// the files.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "storage/sheets/spreadsheet.h"
#include "storage/sheets/workbook_text.h"

namespace {

using nlohmann::json;

// The number of rows refused, or -1 when the file could not be read.
int take(engine::Farm& farm, const std::string& path) {
  const engine::DeviceId device{{1}};
  const auto text = storage::read_sheet_file(path);
  if (!text.ok()) return fmt::print(stderr, "{}\n", text.status().message()), -1;
  const auto reading =
      storage::read_spreadsheet(farm, text.value().text, std::chrono::year{2026} / 8 / 20);
  if (!reading.ok()) return fmt::print(stderr, "{}: {}\n", path, reading.status().message()), -1;
  for (const engine::Body& body : reading.value().events) {
    const engine::Event next{{device, farm.last_seq[device] + 1}, {}, body};
    farm = engine::apply(std::move(farm), next);
  }
  fmt::print(stderr, "{}", storage::report_text(reading.value().report));
  return reading.value().report.count(storage::RowFate::Refused);
}

void print(const engine::Farm& farm) {
  for (const auto& [id, c] : farm.colonies) {
    json line = {{"yard", farm.yards.at(c.yard).name},
                 {"hive", c.name},
                 {"boxes", c.brood_boxes},
                 {"supers", c.supers_on},
                 {"note", c.note}};
    if (c.spot) line["x_cm"] = c.spot->x_cm, line["y_cm"] = c.spot->y_cm;
    fmt::print("{}\n", line.dump());
  }
  for (const auto& count : farm.counts) {
    const auto& t = count.taken;
    const json line = {{"hive", farm.colonies.at(t.colony).name},
                       {"on", engine::iso_date(t.on)},
                       {"method", engine::name(t.method)},
                       {"mites", t.mites},
                       {"bees", t.bees.value_or(0)}};
    fmt::print("{}\n", line.dump());
  }
}

}  // namespace

int main(int argc, char** argv) {
  engine::Farm farm;
  for (int i = 1; i < argc; ++i)
    if (take(farm, argv[i]) != 0) return 1;
  print(farm);
  return 0;
}
