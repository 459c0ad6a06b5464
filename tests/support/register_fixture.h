// tests/support/register_fixture.h -- an invented outfit and one of its evenings, event by event.
//
// Thistle Bank on 2026-08-14, dusk at UTC-7: one colony of each outcome that the register knows.
#pragma once
#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "engine/farm/farm.h"

namespace fixture {

using namespace std::chrono_literals;

template <class IdType>
IdType id(std::uint8_t n) {
  IdType made;
  made.bytes = {0x01, 0x98, 0xa0, 0, 0, 0, 0x70, 0, 0x80, 0, 0, 0, 0, 0, 0, n};
  return made;
}

inline const engine::DeviceId kTabletOfRegister = id<engine::DeviceId>(0xd1);
inline const engine::YardId kYard = id<engine::YardId>(1);
inline const engine::YardId kOtherYard = id<engine::YardId>(2);
inline const engine::WalkId kWalk = id<engine::WalkId>(1);
inline const engine::KitId kVaporizer = id<engine::KitId>(1);
inline const engine::KitId kCloth = id<engine::KitId>(2);
inline const engine::KitId kSecondCloth = id<engine::KitId>(3);
inline const engine::LotId kLot = id<engine::LotId>(1);
inline const engine::CourseId kCourse = id<engine::CourseId>(1);
inline engine::ColonyId colony(int n) {
  engine::ColonyId made = id<engine::ColonyId>(static_cast<std::uint8_t>(n));
  made.bytes[14] = 0xc0;  // not the id of a yard
  return made;
}

inline engine::Date date(int y, unsigned m, unsigned d) {
  return engine::Date{std::chrono::year{y}, std::chrono::month{m}, std::chrono::day{d}};
}

// Writes events one after the other, as one tablet does.
struct Pen {
  engine::Farm farm;
  engine::Stamp now = *engine::stamp_from_rfc3339("2026-08-14T19:00:00-07:00");

  Pen() { now.boot = "b1"; }

  engine::EntryRef write(engine::Body body) {
    const engine::EntryRef ref{kTabletOfRegister, farm.last_seq[kTabletOfRegister] + 1};
    engine::Event e{ref, now, std::move(body)};
    INFO(std::string(engine::kind(e.body)));
    REQUIRE(std::string(name(why_not(farm, e))) == "none");
    farm = apply(std::move(farm), e);
    return ref;
  }
  // Why the next event would be impossible.
  [[nodiscard]] engine::Refusal asks(engine::Body body) const {
    const engine::EntryRef ref{kTabletOfRegister, farm.last_seq.at(kTabletOfRegister) + 1};
    return why_not(farm, engine::Event{ref, now, std::move(body)});
  }
  void wait(engine::Ms length) { now = engine::after(now, length); }
};

inline engine::LabelRules rules() {
  engine::LabelRules r;
  r.profile = "test";
  r.product = "Oxalic acid, label of the test";
  r.registration = "REG-0";
  r.per_brood_box = {1000};
  r.most_per_brood_box = engine::Mass{2000};
  r.supers = engine::Supers::Forbidden;
  r.withdrawal_days = 0;
  return r;
}

// The yard with seven colonies A1 to A7, a vaporizer, two cloths, one lot.
inline void set_up(Pen& pen, const std::string& first_colony = "A1") {
  engine::SetupChanged setup;
  setup.operator_name = "Wren Aldous";
  setup.operator_address = "2 Quarry Cottages, Nether Fold";
  pen.write(setup);
  pen.write(engine::YardAdded{kYard, "Thistle Bank", engine::Place{45'000'000, -120'000'000},
                              "America/Los_Angeles", ""});
  pen.write(engine::YardAdded{kOtherYard, "Old Kiln", {}, "", ""});
  for (int n = 1; n <= 7; ++n)
    pen.write(engine::ColonyAdded{colony(n), kYard, n == 1 ? first_colony : "A" + std::to_string(n),
                                  n == 3 ? 2 : 1, n == 5, engine::Spot{n * 100, n * -50}, n, ""});
  pen.write(engine::KitAdded{kVaporizer, engine::KitSort::Vaporizer, "1"});
  pen.write(engine::KitAdded{kCloth, engine::KitSort::Cloth, "red"});
  pen.write(engine::KitAdded{kSecondCloth, engine::KitSort::Cloth, "Cloth blue"});
  pen.write(engine::StockReceived{kLot,
                                  "Oxalic acid dihydrate, technical",
                                  "REG-7",
                                  "24-118",
                                  date(2026, 8, 1),
                                  {500'000},
                                  "Fold & Daughters",
                                  "R-31"});
  engine::OtherTreatmentGiven other;
  other.colony = colony(1);
  other.on = date(2026, 7, 1);
  other.method = engine::Method::FormicAcid;
  other.product = "Formic strips of the test";
  other.dose = "=2 strips";
  other.withdrawal_days = 14;
  pen.write(other);
}

inline void open_walk(Pen& pen) {
  engine::WalkOpened open;
  open.walk = kWalk;
  open.yard = kYard;
  open.conditions = {engine::Temperature{125}, engine::Flight::None, 270, 32, false};
  open.rules = rules();
  for (int n = 1; n <= 7; ++n) open.colonies.push_back(colony(n));
  open.vaporizers = {kVaporizer};
  open.cloths = {kCloth, kSecondCloth};
  open.operator_name = "Wren Aldous";
  open.operator_address = "2 Quarry Cottages, Nether Fold";
  open.reason = "3 mites in 100 bees";
  pen.write(open);
  for (std::size_t i = 0; i < 5; ++i)
    pen.write(engine::ProtectionConfirmed{kWalk, static_cast<engine::Protection>(i)});
}

inline engine::EntryRef set(Pen& pen, int n, std::int64_t mg, int boxes = 1, bool supers = false) {
  return pen.write(
      engine::VaporizerSet{kWalk, colony(n), kVaporizer, {}, kLot, {mg}, boxes, supers});
}

// A1 treated; A2 short seal with an inferred end and a mishap; A3 over the label; A4 passed over;
// A5 lifted and left open, supers on; A6 set, then struck; A7 not reached.
inline void walk_evening(Pen& pen) {
  open_walk(pen);
  set(pen, 1, 1000);
  pen.wait(95s);
  pen.write(engine::ColonyCovered{kWalk, colony(1), kCloth});
  set(pen, 2, 1000);
  pen.wait(90s);
  pen.write(engine::ColonyCovered{kWalk, colony(2), kSecondCloth});
  pen.write(engine::Mishap{kWalk, colony(2), engine::MishapKind::LeakingSeal, "corner lifted"});
  set(pen, 3, 5000, 2);
  pen.wait(100s);
  pen.write(engine::ColonyCovered{kWalk, colony(3), kSecondCloth});
  pen.write(engine::ColonyPassedOver{kWalk, colony(4), engine::PassReason::TooWeak, "two frames"});
  set(pen, 5, 1000, 1, true);
  pen.wait(90s);
  pen.write(engine::ColonyUncovered{kWalk, colony(5)});
  pen.wait(400s);
  pen.write(engine::ColonyUncovered{kWalk, colony(1)});
  const engine::EntryRef wrong = set(pen, 6, 1000);
  pen.wait(5s);
  pen.write(engine::EntryStruck{wrong, "tapped the wrong hive"});
  pen.wait(120s);
  pen.write(engine::ColonyUncovered{kWalk, colony(3)});
  pen.write(engine::WalkClosed{kWalk});
}

inline Pen evening(const std::string& first_colony = "A1") {
  Pen pen;
  set_up(pen, first_colony);
  walk_evening(pen);
  return pen;
}

}  // namespace fixture
