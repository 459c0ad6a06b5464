#include <nlohmann/json.hpp>

#include "engine/farm/merge_order.h"
#include "engine/words/contradictions.h"
#include "storage/answers/due_json.h"
#include "storage/bundle/day_bundle.h"
#include "storage/journal/events_jsonl.h"
#include "storage/register/register_files.h"
#include "storage/sheets/csv_table.h"
#include "storage/store/event_json.h"
#include "tests/fuzz/sealing.h"
#include "tests/fuzz/targets.h"

namespace {

using storage::Sealed;

constexpr std::size_t kPiece = 100;  // a medium may give any number of bytes at a time

std::vector<Sealed> through_text(const std::vector<Sealed>& entries) {
  const std::string text = storage::events_jsonl(entries);
  storage::EventLines lines;
  for (std::size_t at = 0; at < text.size(); at += kPiece)
    lines.take(std::string_view(text).substr(at, kPiece));
  lines.end();
  fuzz::must(lines.bad() == 0 && lines.events() == entries, "entries come back from their text");
  const auto whole = storage::read_events_jsonl(text);
  fuzz::must(whole.ok() && whole.value() == entries, "both readers of the text agree");
  return std::move(lines.events());
}

std::vector<engine::Event> known_events(const std::vector<Sealed>& entries) {
  std::vector<engine::Event> events;
  for (const Sealed& s : entries) {
    auto event = storage::to_event(s.record);
    if (!event.ok()) continue;
    const auto again = storage::to_event(storage::to_record(event.value()));
    fuzz::must(again.ok() && storage::to_record(again.value()) == storage::to_record(event.value()),
               "an entry is written as it was read");
    events.push_back(std::move(event).value());
  }
  return events;
}

// Cells of text that a spreadsheet might work out have an apostrophe before them.
void check_csv(const std::string& text) {
  fuzz::must(storage::not_csv(text).empty(), "a written CSV file is one");
  for (const storage::CsvRow& row : storage::parse_csv(text, ',').rows)
    for (const std::string& cell : row.cells)
      fuzz::must(cell.empty() || cell[0] == '-' || std::string("=+@").find(cell[0]) == cell.npos,
                 "no cell is a formula");
}

void check_ics(std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = text.find("\r\n");
    fuzz::must(end != text.npos, "calendar lines end in CRLF");
    fuzz::must(end <= 75, "calendar lines are folded (RFC 5545 section 3.1)");
    fuzz::must(text.substr(0, end).find_first_of("\r\n") >= end, "no bare line end in a calendar");
    text.remove_prefix(end + 2);
  }
}

void check_files(const storage::PayloadFiles& files) {
  for (const char* name : {"day.csv", "register.csv", "stock.csv"}) check_csv(files.at(name));
  check_ics(files.at("rounds.ics"));
  fuzz::must(nlohmann::json::accept(files.at("yards.geojson")), "the map is JSON");
  fuzz::must(files.at("report.html").find("<script") == std::string::npos, "no script in a report");
}

}  // namespace

void fuzz::entries(std::string_view bytes) {
  const std::vector<Sealed> all = through_text(sealed_lines(bytes));
  const engine::Farm farm = engine::fold_together(known_events(all));
  (void)engine::contradictions(farm);
  if (farm.log.size() == 0) return;
  check_files(storage::payload_of_day(farm, all, std::nullopt));
  const engine::Date day = storage::local_date(all.back().record);
  check_files(storage::payload_of_day(farm, all, day));
  must(nlohmann::json::accept(storage::due_json(farm, engine::due_on(farm, day), day)),
       "what is due is JSON");
}
