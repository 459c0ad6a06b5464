// engine/events/events_kit.h -- vaporizers, cloths, batteries, respirators and acid.
#pragma once
#include <optional>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/event_fields.h"

namespace engine {

struct KitAdded {
  static constexpr const char* kKind = "kit_added";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Kit,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Nothing,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  KitId item;
  KitSort sort = KitSort::Cloth;
  std::string name;
  std::optional<int> watt_hours{};  // of a battery, as printed on it; 1 to 5000
  DUSKWALK_FIELDS(f("item", s.item), f("sort", s.sort), f("name", s.name),
                  f("watt_hours", s.watt_hours))
};

struct KitChanged {
  static constexpr const char* kKind = "kit_changed";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  KitId item;
  std::optional<std::string> name;
  std::optional<bool> retired;
  std::optional<int> watt_hours{};
  std::optional<Date> fit_tested{};  // a respirator's fit was tested on its wearer
  DUSKWALK_FIELDS(f("item", s.item), f("name", s.name), f("retired", s.retired),
                  f("watt_hours", s.watt_hours), f("fit_tested", s.fit_tested))
};

// A full battery goes into a vaporizer; the one that was in it comes out.
struct BatteryChanged {
  static constexpr const char* kKind = "battery_changed";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  KitId vaporizer;
  KitId battery;
  bool was_empty = false;  // the old one, when it came out
  DUSKWALK_FIELDS(f("vaporizer", s.vaporizer), f("battery", s.battery), f("was_empty", s.was_empty))
};

struct BatteryCharged {
  static constexpr const char* kKind = "battery_charged";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  KitId battery;
  DUSKWALK_FIELDS(f("battery", s.battery))
};

struct VaporizerCleaned {
  static constexpr const char* kKind = "vaporizer_cleaned";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  KitId vaporizer;
  DUSKWALK_FIELDS(f("vaporizer", s.vaporizer))
};

struct FilterChanged {
  static constexpr const char* kKind = "filter_changed";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  KitId respirator;
  std::string cartridge;
  std::optional<Date> last_day{};  // until which its maker lets it be used
  DUSKWALK_FIELDS(f("respirator", s.respirator), f("cartridge", s.cartridge),
                  f("last_day", s.last_day))
};

// A lot arrives, or more of the same lot.
struct StockReceived {
  static constexpr const char* kKind = "stock_received";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Lot,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Nothing,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = true,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"delivery", "deliveries"}};
  LotId lot;
  std::string product;
  std::string registration;
  std::string code;  // batch or lot number on the container
  std::optional<Date> expiry;
  Mass amount;
  std::string supplier;
  std::string receipt;
  std::optional<Date> on{};  // bought; none: the day it was entered
  std::optional<std::string> supplier_address{};
  DUSKWALK_FIELDS(f("lot", s.lot), f("product", s.product), f("registration", s.registration),
                  f("code", s.code), f("expiry", s.expiry), f("amount", s.amount),
                  f("supplier", s.supplier), f("receipt", s.receipt), f("on", s.on),
                  f("supplier_address", s.supplier_address))
};

// Acid leaves the shelf without a treatment.
struct AcidDisposed {
  static constexpr const char* kKind = "acid_disposed";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Nothing,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = true,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"disposal", "disposals"}};
  LotId lot;
  Mass amount;
  Date on{};
  DisposalWhy why = DisposalWhy::Expired;
  std::string how;  // how and where
  DUSKWALK_FIELDS(f("lot", s.lot), f("amount", s.amount), f("on", s.on), f("why", s.why),
                  f("how", s.how))
};

}  // namespace engine
