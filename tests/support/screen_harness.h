// tests/support/screen_harness.h -- an evening without a tablet: a farm in memory, a virtual clock,
// the real screens and one finger.
//
// What a screen asks is applied to the farm as the app would, with the farm's own why_not() before;
// a refused event is kept in `refused` (a test fails on it).
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "engine/farm/queries.h"
#include "tests/support/rig.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/state/views.h"

namespace test {

// The n-th id of its sort; stable over runs.
template <class IdType>
IdType id(int n) {
  IdType made;
  made.bytes = {0x01,
                0x98,
                0xa0,
                0,
                0,
                0,
                0x70,
                0,
                0x80,
                0,
                0,
                0,
                0,
                0,
                static_cast<std::uint8_t>(n >> 8),
                static_cast<std::uint8_t>(n & 0xff)};
  return made;
}

// An invented outfit with one yard; every part may be changed before it is set up.
struct Outfit {
  std::string yard = "Thistle Bank";
  int colonies = 6, vaporizers = 1, cloths = 2;
  std::vector<std::string> names{};  // of the colonies; "A1", "A2", ... where there are none
  bool spots = true, label = true, respirator = true;
  engine::Supers supers = engine::Supers::Forbidden;
  std::vector<int> boxes{};  // by colony; 2 where not given
  bool led = false;          // by the planner, at a yard whose place is known
  std::string began = "2026-08-14T19:40:00-07:00";
  std::optional<engine::Place> home{};
};
[[nodiscard]] engine::LabelRules test_rules(engine::Supers supers);

class Evening {
 public:
  explicit Evening(const Outfit& outfit = {}, const Panel& panel = landscape(),
                   const ui::Theme& theme = ui::sun_theme());

  // Writes an event as if it came from this tablet; fails the test when it is refused.
  void write(engine::Body body);
  void wait(std::chrono::seconds length);  // a frame each second, as the real loop draws
  void jump(std::chrono::seconds length);  // at once

  // Exact label first, else the only one that contains it; throws when there is none, more than
  // one, or it is disabled. tap() needs a tap target, hold() one that is held.
  void tap(const std::string& label);
  void hold(const std::string& label);
  [[nodiscard]] ui::Target target(const std::string& label) const;
  [[nodiscard]] bool has(const std::string& label) const;
  [[nodiscard]] bool sees(const std::string& words) const { return rig_.sees(words); }
  void redraw() { rig_.frame(); }
  void turn_to(const Panel& panel) { rig_.turn_to(panel); }
  void wear(const ui::Theme& theme) { rig_.wear(theme); }

  [[nodiscard]] ui::Look look() const;
  [[nodiscard]] engine::Stamp now() const;
  [[nodiscard]] const engine::Walk* walk() const;
  [[nodiscard]] std::string all_words() const;

  engine::Stamp began;  // the clock where the evening starts; time passes on top of it
  engine::Farm farm;
  engine::LogIndex book;
  ui::Answers answers;
  ui::Views views;
  std::vector<ui::LabelSeen> labels;
  std::vector<engine::MethodRules> methods;
  std::vector<ui::StickSeen> sticks;
  ui::BundleSeen bundle;
  ui::TakenIn taken_in;
  ui::CopiesSeen copies;
  ui::ExchangeSeen exchange;
  ui::TrustSeen trust;
  bool mendable = false;
  std::vector<ui::Trouble> troubles;
  std::string log_folder, paper_line;
  std::vector<std::string> refused_files;
  std::vector<std::string> refused;
  std::vector<ui::Ask> outside;  // asks that are no events
  int taps = 0;                  // taps and holds so far

  [[nodiscard]] const ui::Touch& touch() const { return rig_.touch; }
  [[nodiscard]] engine::DeviceId device() const { return id<engine::DeviceId>(0xd1); }
  [[nodiscard]] engine::ColonyId colony(int n) const { return id<engine::ColonyId>(n); }

 private:
  void set_up(const Outfit& outfit);
  void draw(ui::Touch& t);
  void carry_out();
  void finger(const std::string& label, bool held);

  Rig rig_;
  ui::Ask asked_;
  int fresh_ = 1000;
  mutable engine::Stamp looked_at_;  // what the last Look refers to
};

}  // namespace test
