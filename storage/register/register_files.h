// storage/register/register_files.h -- the register and the day's log as files that people open.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/register/day.h"
#include "engine/register/register.h"
#include "engine/register/stock.h"

namespace storage {

// What stands at the head of a report.
struct RegisterHead {
  std::optional<engine::Date> from, to;
  std::string yard;  // empty: all yards
  std::string exported_by;
  engine::Stamp as_of;       // the register as it stood then
  std::string journal_head;  // hash of the last entry, hexadecimal; empty when not known
  std::optional<engine::Date> complete_from;
  engine::Units shown;  // written beside grams and °C when they differ
  // Acid bought and disposed of in that period, and the lots now; none where the register is of one
  // yard, colony or lot alone.
  std::vector<engine::StockRow> stock{};
  std::vector<engine::Lot> lots{};
};

// The head of a report of that farm: as of its last entry, by the operator of its setup.
[[nodiscard]] RegisterHead head_of(const engine::Farm& farm, const engine::RegisterQuery& query,
                                   const std::string& journal_head);

// One line for each row, oldest first, under a line of column names. Masses in mg, temperatures in
// tenths of a °C, wind in tenths of a m/s, lengths in s; `shown` adds the units of the screens as
// text.
[[nodiscard]] std::string register_csv(const std::vector<engine::RegisterRow>& rows,
                                       engine::Units shown);

// Deliveries and disposals of acid, one line each.
[[nodiscard]] std::string stock_csv(const std::vector<engine::StockRow>& rows);

[[nodiscard]] std::string day_csv(const std::vector<engine::DayRow>& rows);

// A page that stands for itself: HTML 5 with its style inside, no script, nothing fetched; for a
// screen and for A4 or Letter paper. Grouped by yard and colony. All text is escaped.
[[nodiscard]] std::string register_html(const std::vector<engine::RegisterRow>& rows,
                                        const RegisterHead& head);

// The same on paper: sheets that lie inside A4 and Letter on their side, each with its number, the
// scope, who exported it and the journal's last hash; no colony's rows torn apart while they fit on
// a sheet. Empty when the document could not be made.
[[nodiscard]] std::string register_pdf(const std::vector<engine::RegisterRow>& rows,
                                       const RegisterHead& head);

}  // namespace storage
