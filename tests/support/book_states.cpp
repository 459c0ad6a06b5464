// The pages behind the register, and what else keeps records: disposal, tags.
#include "engine/farm/merge_order.h"
#include "engine/farm/setups.h"
#include "tests/support/farm_states.h"

namespace test {

namespace {

std::vector<engine::Event> events_of(const engine::Farm& farm) {
  std::vector<engine::Event> events;
  for (const engine::Entry& entry : farm.log) events.push_back(entry.event);
  return events;
}

// Vapor that another tablet entered late.
engine::EnteredLate late_vapor(const Evening& e, int colony, int days) {
  engine::EnteredLate late;
  late.walk = id<engine::WalkId>(801);
  late.yard = id<engine::YardId>(1);
  late.colony = e.colony(colony);
  late.on = day_from(e, days);
  late.minute = 20 * 60 + 15;
  late.dose = {2000};
  late.brood_boxes = 2;
  late.rules = *e.farm.setup.rules;
  return late;
}

// Another tablet gave A1 vapor on that day too, and calls another colony by the same name.
void second_tablet(Evening& e) {
  season(e);
  const auto other = id<engine::DeviceId>(0xd2);
  engine::ColonyAdded twin{id<engine::ColonyId>(802), id<engine::YardId>(1), "A2"};
  std::vector<engine::Event> events = events_of(e.farm);
  std::int64_t seq = 0;
  for (engine::Body body : {engine::Body{late_vapor(e, 1, -5)}, engine::Body{twin}})
    events.push_back({{other, ++seq}, e.now(), std::move(body)});
  e.farm = engine::fold_together(std::move(events));
  e.redraw();
}

// Another tablet has another dose in force, and other thresholds.
void offered(Evening& e) {
  season(e);
  engine::SetupChanged there;
  there.rules = *e.farm.setup.rules;
  there.rules->per_brood_box = {1500};
  there.thresholds = engine::Thresholds{10, 10, 20, 20};
  std::vector<engine::Event> events = events_of(e.farm);
  events.push_back({{id<engine::DeviceId>(0xd2), 1}, e.now(), there});
  e.farm = engine::shown_on(engine::fold_together(std::move(events)), e.device());
  e.redraw();
}

// Another tablet's store was copied, and both copies were written on: vapor on one, counts on the
// other.
void forked(Evening& e) {
  season(e);
  const auto other = id<engine::DeviceId>(0xd2), one = id<engine::DeviceId>(0x3fa),
             two = id<engine::DeviceId>(0x7c1);
  const engine::Branches sides = {{one, other, other, 2}, {two, other, other, 2}};
  std::vector<engine::Event> events = events_of(e.farm);
  events.push_back({{other, 1}, e.now(), engine::NoteWritten{{}, {}, "fresh foundation"}});
  events.push_back({{one, 2}, e.now(), late_vapor(e, 2, -3)});
  for (int n = 1; n <= 3; ++n)
    events.push_back(
        {{two, n + 1},
         engine::after(e.now(), engine::Seconds{n * 4000}),
         engine::CountTaken{
             e.colony(n), day_from(e, 0), engine::CountMethod::AlcoholWash, n, 300, {}}});
  e.farm = engine::fold_together(std::move(events), sides);
  e.redraw();
}

// The wrong dose of A4 was put right, and what it then was is looked at.
void corrected(Evening& e) {
  season(e);
  for (const char* label :
       {"Register", "A4: 2 g dihydrate set", "Correct", "Dose", "1", "OK", "Save correction"})
    tap_listed(e, label);
}

void taken_in(Evening& e, bool failed) {
  second_tablet(e);
  e.sticks = {stick()};
  e.taken_in = {"/media/keeper", failed, 3, 2, 412, 71, {}};
  e.taken_in.lines = {
      "duskwalk-2026-08-14-3f9a1c20-6b1d0c44e2a95f17: data/events.jsonl is not as it was written",
      "Tablet 3f9a1c20: entries 41 to 60 are missing; those after them wait until they come."};
  e.tap("Register"), e.tap("Other tablets"), e.tap("What came in");
}

constexpr const char* kCopy = "/media/keeper/duskwalk-backup-2026-08-14-1940-3f9a1c20.journal";

void backups(Evening& e, ui::CopiesSeen::State state, const std::string& line) {
  season(e);
  e.sticks = {stick(), {"CAMERA", "/media/camera", true, {}}};
  e.log_folder = "/home/keeper/logs";
  e.copies = {state, line, 0.4F, "duskwalk-backup-2026-08-14-1940-3f9a1c20.journal", {}};
  for (const char* name : {"duskwalk-backup-2026-08-14-1940-3f9a1c20.journal",
                           "duskwalk-backup-2026-08-02-0612-3f9a1c20.journal"})
    e.copies.found.push_back(
        {name, std::string("/media/keeper/") + name, "KEEPER STICK", 2'412'000});
  e.tap("Setup"), e.tap("About"), e.tap("Backups");
}

void exchanging(Evening& e, bool failed, std::vector<std::string> lines) {
  season(e);
  e.sticks = {stick()};
  e.exchange = {"/srv/farm/exchange", failed, "19:41", std::move(lines)};
  for (const char* label : {"Register", "Other tablets", "Exchange folder"}) e.tap(label);
}

std::vector<FarmState> copy_states() {
  using State = ui::CopiesSeen::State;
  return {
      {"backups-none", taps({"Setup", "About", "Backups"})},
      {"backups", [](Evening& e) { backups(e, State::None, ""); }},
      {"backups-copying", [](Evening& e) { backups(e, State::Copying, ""); }},
      {"backups-done",
       [](Evening& e) { backups(e, State::Done, "Whole, read back. Safe to pull."); }},
      {"backups-failed",
       [](Evening& e) {
         backups(e, State::Failed,
                 "The stick was pulled or does not answer. Put it back and write again.");
       }},
      {"backups-mend",
       [](Evening& e) {
         e.mendable = true;
         e.troubles = {{ui::TroubleKind::Locked,
                        "The journal is damaged: 1204 of 1210 entries can be read. Setup, About, "
                        "Backups: go on with what can be read."}};
         backups(e, State::None, "");
       }},
      {"backup-take-in", [](Evening& e) { backups(e, State::None, ""), e.tap("19:40, tablet"); }},
      {"backup-taken-in",
       [](Evening& e) {
         backups(e, State::None, "");
         e.tap("19:40, tablet"), e.tap("Take it in");
         e.taken_in = {.folder = kCopy, .added = 412, .known = 71, .copy = true};
         e.redraw();
       }},
      {"exchange-none", taps({"Register", "Other tablets", "Exchange folder"})},
      {"exchange",
       [](Evening& e) {
         exchanging(e, false,
                    {"2 bundles taken in with 41 new entries, 1 put out.",
                     "Not whole yet: duskwalk-2026-08-14-3f9a1c20-6b1d0c44e2a95f17"});
       }},
      {"exchange-failed", [](Evening& e) {
         exchanging(e, true, {"This folder is not there. Choose another place."});
       }}};
}

}  // namespace

std::vector<FarmState> book_states() {
  const auto tablets = [](std::vector<std::string> labels) {
    return [=](Evening& e) {
      second_tablet(e);
      for (const std::string& label : labels) tap_listed(e, label);
    };
  };
  std::vector<FarmState> all = copy_states();
  const std::vector<FarmState> book = {
      {"register-correct", taps({"Register", "A4: 2 g dihydrate set", "Correct"})},
      {"register-correct-why",
       taps({"Register", "A4: 2 g dihydrate set", "Correct", "Why corrected"})},
      {"register-corrected", corrected},
      {"register-find", taps({"Register", "Find"})},
      {"register-find-yard", taps({"Register", "Find", "Yard"})},
      {"register-find-colony", taps({"Register", "Find", "Colony", "Thistle Bank"})},
      {"register-find-period", taps({"Register", "Find", "Period"})},
      {"register-find-nothing", taps({"Register", "Find", "Period", "Last year"})},
      {"register-find-crowd", crowded({"Register", "Find"})},
      {"register-lots", taps({"Register", "Lots"})},
      {"register-lot", taps({"Register", "Lots", "24-118"})},
      {"register-lot-crowd", crowded({"Register", "Lots", "24-118"})},
      {"register-late-yard", taps({"Register", "Enter late"})},
      {"register-late", taps({"Register", "Enter late", "Thistle Bank"})},
      {"register-late-colonies",
       taps({"Register", "Enter late", "Thistle Bank", "Colonies", "A1", "A3"})},
      {"register-late-day", taps({"Register", "Enter late", "Thistle Bank", "Day"})},
      {"register-late-crowd",
       crowded({"Register", "Enter late", "Yard 1 ", "Colonies", "All of them", "Back"})},
      {"tablets", taps({"Register", "Other tablets"})},
      {"tablets-contradictions", tablets({"Register", "Other tablets"})},
      {"tablets-settle", tablets({"Register", "Other tablets", "A1: 2 g dihydrate set"})},
      {"tablets-named-twice", tablets({"Register", "Other tablets", "One name twice"})},
      {"tablets-join", tablets({"Register", "Other tablets", "One name twice", "They are one"})},
      {"tablets-offers", [](Evening& e) { offered(e), e.tap("Register"), e.tap("Other tablets"); }},
      {"tablets-offer",
       [](Evening& e) {
         offered(e), e.tap("Register"), e.tap("Other tablets");
         tap_listed(e, "has another label");
       }},
      {"setup-label-offered", [](Evening& e) { offered(e), e.tap("Setup"), e.tap("Label"); }},
      {"tablets-forks", [](Evening& e) { forked(e), e.tap("Register"), e.tap("Other tablets"); }},
      {"tablets-fork",
       [](Evening& e) {
         forked(e), e.tap("Register"), e.tap("Other tablets");
         tap_listed(e, "Written on in copies");
       }},
      {"tablets-fork-decided",
       [](Evening& e) {
         forked(e), e.tap("Register"), e.tap("Other tablets");
         tap_listed(e, "Written on in copies"), e.tap("one was only tried out");
       }},
      {"tablets-taken-in", [](Evening& e) { taken_in(e, false); }},
      {"tablets-not-taken-in", [](Evening& e) { taken_in(e, true); }},
      {"kit-dispose", taps({"Kit", "Acid", "25-002", "Dispose of some"})},
      {"yard-tags", [](Evening& e) {
         season(e);
         e.sticks = {stick()};
         for (const char* label : {"Yards", "Thistle Bank", "More"}) e.tap(label);
       }}};
  all.insert(all.end(), book.begin(), book.end());
  return all;
}

}  // namespace test
