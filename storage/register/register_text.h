// storage/register/register_text.h -- what a register says around its rows, whatever draws it.
// Plain text.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "storage/register/register_files.h"

namespace storage {

// "2026-08-01 to 2026-08-31"; "all days".
[[nodiscard]] std::string period_of(const RegisterHead& head);
// "Thistle Bank, 2026-08-01 to 2026-08-31".
[[nodiscard]] std::string scope_of(const RegisterHead& head);

// Who exported it, as of when, from when it is complete, and the journal's last hash.
struct RegisterFact {
  enum class Of { Ours, Person, Digest };
  const char* what;
  std::string value;
  Of of = Of::Ours;
};
[[nodiscard]] std::vector<RegisterFact> facts_of(const RegisterHead& head);

// The products given, each once, in the order in which they first come.
inline constexpr std::array<const char*, 6> kProductTitles = {
    "Product", "Registration no.", "Lot", "Expiry", "Supplier", "Receipt"};
using ProductLine = std::array<std::string, kProductTitles.size()>;
[[nodiscard]] std::vector<ProductLine> products_of(const std::vector<engine::RegisterRow>& rows);

// A line of a plain table; one that is struck is lined through, but for its last cell.
struct TableLine {
  std::vector<std::string> cells;
  bool struck = false;
};
inline constexpr std::array<const char*, 8> kStockTitles = {
    "Day", "What", "Product", "Lot", "Expiry", "Amount", "From / how and where", "Entry"};
[[nodiscard]] std::vector<TableLine> stock_lines(const std::vector<engine::StockRow>& rows);
inline constexpr std::array<const char*, 7> kLotTitles = {
    "Lot", "Product", "Expiry", "Received", "Given", "Disposed of", "Left"};
[[nodiscard]] std::vector<TableLine> lot_lines(const std::vector<engine::Lot>& lots);

inline constexpr const char* kRegisterCautionFirst = "The label in your hand decides.";
inline constexpr const char* kRegisterCaution =
    "This report says what was entered; it does not say that a treatment was allowed or that it "
    "worked. Doses, honey supers, withdrawal and protection follow the label of the container, "
    "local law and licensed practice. Keep registers as long as your law asks: Regulation (EU) "
    "2019/6, Article 108, asks for at least five years.";
inline constexpr const char* kRegisterReading =
    "Masses are grams of what stands beside them; 1 g of oxalic acid dihydrate is 0.714 g "
    "anhydrous (molar masses 126.065 and 90.034). Dwell is the time from setting to lifting the "
    "vaporizer, seal the time the entrance was closed; \"end inferred\" means the cloth turned up "
    "on another colony, which ends its time on this one. STRUCK entries were taken back and do not "
    "count; they stay readable with the reason. Times are local to the entry. Each entry is named "
    "by its tablet and number.";

}  // namespace storage
