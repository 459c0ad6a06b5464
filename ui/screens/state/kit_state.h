#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/units.h"
#include "engine/events/events_kit.h"
#include "engine/trip/tonight.h"
#include "ui/screens/base/form_state.h"
#include "ui/screens/base/typing.h"

namespace ui {

enum class KitSection { Vaporizers, Cloths, Batteries, Acid, Respirator, Pack };
enum class KitPage { None, ChangeBattery, Stock, PackYard, Dispose };

// A lot as it is typed in; with `more_of` only the amount is asked for.
struct StockDraft {
  std::optional<engine::LotId> more_of;
  std::string product, registration, code, supplier, receipt;
  std::string supplier_address{};
  std::optional<engine::Date> expiry;
  bool no_such_day = false;  // the digits typed last were no date
  double amount = 0;         // in the unit of the setup
};

struct KitView {
  int section = 0;
  int page = 0;
  std::optional<engine::KitId> item;  // the one whose page is open
  std::optional<engine::LotId> lot;
  std::string added;  // id of what was added and has not been shown yet
  KitPage page_of = KitPage::None;
  Typing typing;
  StockDraft stock;
  int stock_page = 0;
  engine::AcidDisposed disposal;
  FormView form;
  bool was_empty = false;
  bool pack_told = false;              // the pack list in words instead of pictures
  std::optional<engine::YardId> yard;  // packed for it alone; none: for what is due tonight

  // What one more cloth saves: working it out takes longer than a frame.
  struct ClothSaving {
    std::size_t entries = 0;  // of the log
    std::vector<engine::TripYard> visits;
    std::optional<engine::Seconds> saves;
  };
  std::optional<ClothSaving> saving;
};

}  // namespace ui
