#include "tests/support/farm_states.h"

#include <fmt/format.h>

#include "ui/screens/base/layout.h"

namespace test {

using namespace std::chrono_literals;

engine::Date day_from(const Evening& e, int days) {
  return engine::Date{engine::days(engine::local_date(e.now())) + std::chrono::days{days}};
}

ui::StickSeen stick() { return {"KEEPER STICK", "/media/keeper", false, 12'300'000'000ULL}; }

namespace {

constexpr std::chrono::seconds kDay{86'400};

void add_yard(Evening& e, int n, const std::string& name, int colonies) {
  const auto yard = id<engine::YardId>(n);
  e.write(engine::YardAdded{yard, name});
  for (int i = 1; i <= colonies; ++i) {
    engine::ColonyAdded c{id<engine::ColonyId>(n * 100 + i), yard, fmt::format("{}{}", name[0], i)};
    c.brood_boxes = 1 + i % 2;
    c.order = i;
    if (n != 4) c.spot = engine::Spot{(i - 1) % 4 * 250, (i - 1) / 4 * -300};
    e.write(c);
  }
}

// A whole walk of the first yard: A2 is passed over, A4 is opened too early, A6 is not reached.
void walk_once(Evening& e, int n) {
  const auto walk = id<engine::WalkId>(n);
  engine::WalkOpened open{walk, id<engine::YardId>(1), id<engine::CourseId>(1)};
  open.rules = *e.farm.setup.rules;
  for (int i = 1; i <= 6; ++i) open.colonies.push_back(e.colony(i));
  open.vaporizers = {id<engine::KitId>(1)};
  open.cloths = {id<engine::KitId>(2), id<engine::KitId>(3)};
  open.respirator = id<engine::KitId>(4);
  e.write(open);
  for (int p = 0; p < 5; ++p)
    e.write(engine::ProtectionConfirmed{walk, static_cast<engine::Protection>(p)});
  e.write(engine::ColonyPassedOver{walk, e.colony(2), engine::PassReason::BeesFlying});
  for (int i = 1; i <= 5; ++i) {
    if (i == 2) continue;
    e.write(engine::VaporizerSet{walk,
                                 e.colony(i),
                                 id<engine::KitId>(1),
                                 id<engine::KitId>(5),
                                 id<engine::LotId>(1),
                                 {2000},
                                 2});
    e.jump(95s);
    e.write(engine::ColonyCovered{walk, e.colony(i), id<engine::KitId>(2)});
    e.jump(i == 4 ? 60s : 610s);
    e.write(engine::ColonyUncovered{walk, e.colony(i)});
  }
  e.write(engine::WalkClosed{walk});
}

void kit(Evening& e) {
  e.write(engine::BatteryChanged{id<engine::KitId>(1), id<engine::KitId>(5)});
  e.write(
      engine::KitAdded{id<engine::KitId>(40), engine::KitSort::Vaporizer, "Old one with the dent"});
  engine::StockReceived lot{id<engine::LotId>(2), "Oxalic acid dihydrate"};
  lot.code = "25-002";
  lot.amount = {275'000};
  lot.expiry = day_from(e, 20);
  lot.supplier = "Fold & Fettle bee supply";
  e.write(lot);
  e.write(engine::FilterChanged{id<engine::KitId>(4), "acid gas + P100"});
}

}  // namespace

namespace {

// Rules invented for the tests.
void methods(Evening& e) {
  engine::MethodRules vapor;
  vapor.id = "vapor";
  vapor.name = "Oxalic acid vapor";
  vapor.method = engine::Method::Vapor;
  vapor.supers = engine::Supers::Forbidden;
  vapor.min_interval_days = 4;
  vapor.most_rounds = 6;
  engine::MethodRules strips;
  strips.id = "strips";
  strips.name = "Strips with a synthetic active";
  strips.method = engine::Method::Strip;
  strips.moa_class = "3A";
  strips.uses_per_year = 1;
  strips.withdrawal_days = 42;
  engine::MethodRules formic;
  formic.id = "formic";
  formic.name = "Formic acid pads";
  formic.method = engine::Method::FormicAcid;
  formic.least = engine::Temperature{100};
  formic.most = engine::Temperature{295};
  e.methods = {vapor, strips, formic};
}

}  // namespace

void labels(Evening& e) {
  ui::LabelSeen powder{.id = "test",
                       .region = "United States",
                       .name = "Oxalic acid dihydrate, cautious generic profile",
                       .source = "invented for the tests",
                       .checked = "2026-01-10",
                       .check_your_label = "Check the label in your hand: it decides.",
                       .rules = test_rules(engine::Supers::Forbidden)};
  powder.cautions = {"Check the label in your hand: it decides.",
                     "Acid vapor harms lungs, eyes and skin: respirator with the cartridge your "
                     "label asks for, eye protection, gloves; rinse water within reach.",
                     "Hot metal near wax and dry grass: keep water for fire at hand."};
  ui::LabelSeen other = powder;
  other.id = other.rules.profile = "other";
  other.region = "Elsewhere";
  other.rules.per_brood_box = {2300};
  other.rules.most_per_brood_box.reset();
  other.rules.most_per_colony = engine::Mass{2300};
  e.labels = {powder, other};
  methods(e);
}

void season(Evening& e) {
  labels(e);
  add_yard(e, 2, "Quarry Gate", 9);
  add_yard(e, 3, "Upper Orchard by the old railway bridge", 4);
  add_yard(e, 4, "Miller's Meadow", 5);
  add_yard(e, 5, "Heron Weir", 2);
  kit(e);
  const auto course = [&](int n, std::vector<engine::Date> rounds) {
    e.write(engine::CoursePlanned{id<engine::CourseId>(n), id<engine::YardId>(n), rounds});
  };
  course(1, {day_from(e, 0), day_from(e, 5), day_from(e, 10)});
  course(2, {day_from(e, 2), day_from(e, 7), day_from(e, 12)});
  course(3, {day_from(e, 9), day_from(e, 14)});
  e.write(
      engine::CountTaken{e.colony(1), day_from(e, -12), engine::CountMethod::AlcoholWash, 9, 300});
  walk_once(e, 500);
  engine::OtherTreatmentGiven other{e.colony(1), day_from(e, -90), engine::Method::Strip};
  other.product = "Strips from the spring";
  other.dose = "2 strips";
  e.write(other);
  e.write(engine::NoteWritten{{}, e.colony(1), "queen seen, strong"});
  e.jump(5 * kDay);
  e.views = {};
  e.redraw();
}

void leave_covered(Evening& e) {
  const auto walk = id<engine::WalkId>(600);
  engine::WalkOpened open{walk, id<engine::YardId>(1)};
  open.rules = *e.farm.setup.rules;
  open.colonies = {e.colony(3)};
  open.vaporizers = {id<engine::KitId>(1)};
  open.cloths = {id<engine::KitId>(2)};
  open.respirator = id<engine::KitId>(4);
  e.write(open);
  for (int p = 0; p < 5; ++p)
    e.write(engine::ProtectionConfirmed{walk, static_cast<engine::Protection>(p)});
  e.write(engine::VaporizerSet{walk,
                               e.colony(3),
                               id<engine::KitId>(1),
                               id<engine::KitId>(5),
                               id<engine::LotId>(1),
                               {5000},
                               2});
  e.jump(95s);
  e.write(engine::ColonyCovered{walk, e.colony(3), id<engine::KitId>(2)});
  e.jump(700s);
  e.write(engine::WalkClosed{walk});
  e.redraw();
}

void start_walk(Evening& e) {
  e.tap("START");
  if (e.walk() == nullptr) e.tap("None");
}

namespace {

void counted_heron(Evening& e, std::vector<int> mites) {
  if (e.farm.yards.size() < 5) season(e);
  if (mites.empty()) mites = {14, 11};
  for (int i = 0; i < 2; ++i)
    e.write(engine::CountTaken{id<engine::ColonyId>(501 + i), day_from(e, 0),
                               engine::CountMethod::AlcoholWash, mites[static_cast<std::size_t>(i)],
                               300});
  e.redraw();
}

}  // namespace

void walked_and_counted(Evening& e) {
  counted_heron(e, {});
  const auto yard = id<engine::YardId>(5);
  const auto course = id<engine::CourseId>(9);
  e.write(engine::CoursePlanned{course, yard, {day_from(e, 1)}});
  e.jump(kDay);
  const auto walk = id<engine::WalkId>(700);
  engine::WalkOpened open{walk, yard, course};
  open.rules = *e.farm.setup.rules;
  open.colonies = {id<engine::ColonyId>(501), id<engine::ColonyId>(502)};
  open.vaporizers = {id<engine::KitId>(1)};
  open.cloths = {id<engine::KitId>(2)};
  open.respirator = id<engine::KitId>(4);
  e.write(open);
  for (int p = 0; p < 5; ++p)
    e.write(engine::ProtectionConfirmed{walk, static_cast<engine::Protection>(p)});
  for (const engine::ColonyId colony : open.colonies) {
    e.write(engine::VaporizerSet{
        walk, colony, id<engine::KitId>(1), id<engine::KitId>(5), id<engine::LotId>(1), {2000}, 2});
    e.jump(95s);
    e.write(engine::ColonyCovered{walk, colony, id<engine::KitId>(2)});
    e.jump(610s);
    e.write(engine::ColonyUncovered{walk, colony});
  }
  e.write(engine::WalkClosed{walk});
  e.jump(14 * kDay);
  counted_heron(e, {2, 13});
}

void crowd(Evening& e) {
  labels(e);
  const auto name = [](const std::string& what, int n) {
    std::string s = fmt::format("{} {} Wwwwwwwww Mmmmmmmmm Quince", what, n);
    s.resize(40, 'e');
    return s;
  };
  for (int n = 2; n <= 60; ++n) e.write(engine::YardAdded{id<engine::YardId>(n), name("Yard", n)});
  engine::YardChanged first{id<engine::YardId>(1)};
  first.name = name("Yard", 1);
  e.write(first);
  for (int n = 1; n <= 40; ++n) {
    if (n <= 6) {
      engine::ColonyChanged c{e.colony(n)};
      c.name = name("Colony", n);
      e.write(c);
      continue;
    }
    engine::ColonyAdded c{e.colony(n), id<engine::YardId>(1), name("Colony", n), 2};
    c.order = n;
    c.spot = engine::Spot{(n - 1) % 8 * 200, (n - 1) / 8 * -200};
    e.write(c);
  }
  for (int n = 1; n <= 3; ++n) e.write(engine::KitChanged{id<engine::KitId>(n), name("Kit", n)});
  e.write(engine::CoursePlanned{id<engine::CourseId>(1), id<engine::YardId>(1), {day_from(e, -2)}});
  walk_once(e, 500);
  e.jump(kDay);
  e.views = {};
  e.redraw();
}

// Turns the pages of a list until the label is there.
void tap_listed(Evening& e, const std::string& label) {
  while (!e.has(label) && e.has("NEXT") && e.target("NEXT").enabled) e.tap("NEXT");
  e.tap(label);
}

// Season, then these taps one after another.
Reach taps(std::vector<std::string> labels_in_turn) {
  return [=](Evening& e) {
    season(e);
    for (const std::string& label : labels_in_turn) tap_listed(e, label);
  };
}
Reach crowded(std::vector<std::string> labels_in_turn) {
  return [=](Evening& e) {
    crowd(e);
    for (const std::string& label : labels_in_turn) tap_listed(e, label);
  };
}

namespace {

// A yard of nine of which seven were washed yesterday, from none to far too many.
Reach counted(std::vector<std::string> labels_in_turn) {
  return [=](Evening& e) {
    season(e);
    const int mites[] = {0, 2, 5, 9, 14, 31, 7};
    for (int i = 0; i < 7; ++i)
      e.write(engine::CountTaken{id<engine::ColonyId>(201 + i), day_from(e, -1),
                                 engine::CountMethod::AlcoholWash, mites[i], 300});
    for (const std::string& label : labels_in_turn) tap_listed(e, label);
  };
}

void empty(Evening& e) {
  e.farm = {};
  e.views = {};
  e.redraw();
}

void left_out(Evening& e) {
  e.refused_files = {
      "/home/keeper/.local/share/duskwalk/labels/own.json: rules.per_brood_box_mg: must be 1 to "
      "20000",
      "/home/keeper/.local/share/duskwalk/labels/a-second-one.json: is not JSON"};
  e.redraw();
}

void written(Evening& e, ui::BundleSeen::State state, const char* line) {
  season(e);
  e.sticks = {stick(), {"CAMERA", "/media/camera", true, {}}};
  e.bundle = {state, line, 0.4F};
  e.tap("Register");
  e.tap("Write the log");
}

// Somewhere, if it is not known where.
void live(Evening& e) {
  if (!e.farm.setup.home)
    e.write(engine::SetupChanged{.home = engine::Place{45'000'000, -119'000'000}});
}

// The evening's trip: the button says when, "Tonight 20:10 to 22:40" or in winter "Dawn ...".
void tap_trip(Evening& e) {
  for (const ui::Target& target : e.touch().targets())
    if (target.id == "The trip") return e.tap(target.label);
  e.tap("Tonight");
}

// An evening of the calendar, so many days from now.
Reach evening(int days) {
  return [=](Evening& e) {
    season(e);
    for (const char* label : {"Courses", "Evenings"}) tap_listed(e, label);
    tap_listed(e, ui::day_words(day_from(e, days)).substr(0, 6));  // "Thu 20"
  };
}

// The season of a keeper whose home is known, with the walks of the trip planned.
void at_home(Evening& e) {
  season(e);
  live(e);
  for (int i = 0; i < 8; ++i) e.redraw();
}

std::vector<FarmState> today_states() {
  return {{"today", season},
          {"today-first-use", [](Evening& e) { e.farm = {}, e.views = {}, e.redraw(); }},
          {"today-ready", [](Evening& e) { e.views = {}, e.redraw(); }},
          {"today-come-back", taps({"Thistle Bank: come back"})},
          {"today-count", taps({"Heron Weir: count"})},
          {"today-trip-no-place", taps({"Bees home when?"})},
          {"today-window", at_home},
          {"today-trip",
           [](Evening& e) {
             at_home(e);
             tap_trip(e);
           }},
          {"today-trip-air",
           [](Evening& e) {
             at_home(e);
             tap_trip(e), e.tap("Air at dusk"), e.tap("7"), e.tap("OK");
           }},
          {"today-trip-air-keys",
           [](Evening& e) {
             at_home(e);
             e.write(engine::AirExpected{engine::local_date(e.now()), engine::HomePart::Evening,
                                         engine::Temperature{70}});
             tap_trip(e), e.tap("Air at dusk");
           }},
          {"today-trip-short",
           [](Evening& e) {
             at_home(e);
             for (const int n : {1, 5, 6, 7, 8, 40}) {
               engine::KitChanged gone{id<engine::KitId>(n)};
               gone.retired = true;
               e.write(gone);
             }
             tap_trip(e);
           }},
          {"today-trip-crowd",
           [](Evening& e) {
             crowd(e);
             live(e);
             for (int i = 0; i < 14; ++i) e.redraw();
             tap_trip(e);
           }},
          {"today-empty", empty},
          {"today-walking",
           [](Evening& e) {
             season(e);
             e.tap("Start walk");
             start_walk(e);
             e.tap("Today");
           }},
          {"today-air",
           [](Evening& e) {
             season(e);
             leave_covered(e);
           }},
          {"today-refused",
           [](Evening& e) {
             season(e);
             left_out(e);
             tap_listed(e, "Files left out");
           }},
          {"today-still-open",
           [](Evening& e) {
             season(e);
             leave_covered(e);
             e.tap("Quarry Gate: round"), e.tap("Start walk"), start_walk(e), e.tap("Today");
             e.jump(kDay);
           }},
          {"today-crowd", crowded({})}};
}

std::vector<FarmState> yard_states() {
  return {{"yards", taps({"Yards"})},
          {"yard-list", taps({"Yards", "Thistle Bank"})},
          {"yard-map", taps({"Yards", "Thistle Bank", "Show map"})},
          {"yard-map-no-spots", taps({"Yards", "Miller", "Show map"})},
          {"yard-add", taps({"Yards", "Add yard"})},
          {"yard-more", taps({"Yards", "Thistle Bank", "More"})},
          {"yard-driving", taps({"Yards", "Thistle Bank", "More", "Driving"})},
          {"yard-gate", taps({"Yards", "Thistle Bank", "More", "Way in"})},
          {"yard-gate-keys", taps({"Yards", "Thistle Bank", "More", "Way in", "East or west"})},
          {"yard-card", taps({"Yards", "Thistle Bank", "More", "Card"})},
          {"yard-card-address", taps({"Yards", "Thistle Bank", "More", "Card", "Address"})},
          {"yard-driving-keys", taps({"Yards", "Thistle Bank", "More", "Driving", "From home"})},
          {"yard-note", taps({"Yards", "Thistle Bank", "More", "Write a note", "grass high"})},
          {"rounds", taps({"Yards", "Thistle Bank", "Rounds"})},
          {"rounds-none", taps({"Yards", "Heron Weir", "Rounds"})},
          {"rounds-plan", taps({"Yards", "Heron Weir", "Rounds", "Plan rounds"})},
          {"yards-crowd", crowded({"Yards"})},
          {"yard-crowd", crowded({"Yards", "Yard 1 "})},
          {"yard-map-crowd", crowded({"Yards", "Yard 1 ", "Show map"})}};
}

std::vector<FarmState> colony_states() {
  const auto at = [](std::vector<std::string> more) {
    std::vector<std::string> all = {"Yards", "Thistle Bank", "A1"};
    all.insert(all.end(), more.begin(), more.end());
    return taps(all);
  };
  return {{"colony", at({})},
          {"colony-come-back", taps({"Yards", "Thistle Bank", "A4"})},
          {"colony-air",
           [](Evening& e) {
             season(e);
             leave_covered(e);
             for (const char* label : {"Yards", "Thistle Bank", "A3"}) tap_listed(e, label);
           }},
          {"colony-over-label",
           [](Evening& e) {
             season(e);
             leave_covered(e);
             e.write(engine::ColonyUncovered{id<engine::WalkId>(600), e.colony(3)});
             engine::Mishap spill{id<engine::WalkId>(600)};
             spill.colony = e.colony(3);
             e.write(spill);
             e.jump(200 * kDay);
             for (const char* label : {"Yards", "Thistle Bank", "A3"}) tap_listed(e, label);
           }},
          {"colony-closed-long", taps({"Yards", "Thistle Bank", "A5"})},
          {"colony-new", taps({"Yards", "Thistle Bank", "Add colony"})},
          {"colony-change", at({"Change"})},
          {"colony-kind", at({"Change", "Kind and leaks"})},
          {"colony-note", at({"Write a note", "eggs seen", "strong"})},
          {"colony-count", at({"Count mites"})},
          {"colony-count-keys", at({"Count mites", "Mites"})},
          {"colony-treat", at({"Other treatment"})},
          {"colony-treat-method", at({"Other treatment", "Method"})},
          {"colony-move", at({"Move to yard"})},
          {"colony-lost", at({"Colony lost", "starved"})},
          {"colony-settle", taps({"Yards", "Thistle Bank", "A4", "No visit needed"})},
          {"colony-crowd", crowded({"Yards", "Yard 1 ", "Colony 2 "})}};
}

std::vector<FarmState> counts_states() {
  return {{"counts", taps({"Counts"})},
          {"counts-dots", counted({"Counts"})},
          {"counts-no-yard",
           [](Evening& e) {
             empty(e);
             e.tap("Counts");
           }},
          {"courses-no-yard",
           [](Evening& e) {
             empty(e);
             e.tap("Courses");
           }},
          {"kit-pack-no-label",
           [](Evening& e) {
             empty(e);
             e.tap("Kit"), e.tap("Pack list");
           }},
          {"counts-yard", counted({"Counts", "Quarry Gate"})},
          {"counts-growth", counted({"Counts", "Quarry Gate", "Without treatment"})},
          {"counts-growth-each",
           counted({"Counts", "Quarry Gate", "Without treatment", "Each colony"})},
          {"counts-yard-none", taps({"Counts", "Heron Weir"})},
          {"counts-colonies", counted({"Counts", "Quarry Gate", "Count a colony"})},
          {"counts-keys", taps({"Counts", "Thistle Bank", "Count a colony", "A1"})},
          {"counts-entry", taps({"Counts", "Thistle Bank", "Count a colony", "A1", "CANCEL"})},
          {"counts-board", taps({"Counts", "Thistle Bank", "Count a colony", "A1", "4", "OK",
                                 "300 bees", "sticky board"})},
          {"counts-said", taps({"Counts", "Heron Weir", "Count a colony", "H1", "9", "OK",
                                "300 bees", "Save count"})},
          {"counts-crowd", crowded({"Counts"})}};
}

std::vector<FarmState> courses_states() {
  return {{"courses", counted({"Courses"})},
          {"courses-yard", taps({"Courses", "Thistle Bank"})},
          {"courses-yard-none", taps({"Courses", "Heron Weir"})},
          {"courses-expect", counted({"Courses", "Quarry Gate", "What to expect"})},
          {"courses-expect-options",
           [](Evening& e) {
             counted_heron(e, {});
             for (const char* l : {"Courses", "Heron Weir", "What to expect"}) e.tap(l);
           }},
          {"courses-expect-none", taps({"Courses", "Heron Weir", "What to expect"})},
          {"courses-verdict",
           [](Evening& e) {
             walked_and_counted(e);
             for (const char* l : {"Courses", "Heron Weir", "Did it work?"}) e.tap(l);
           }},
          {"courses-methods", taps({"Courses", "Thistle Bank", "Which treatment"})},
          {"courses-brood", taps({"Courses", "Heron Weir", "Brood and queens"})},
          {"courses-plan", taps({"Courses", "Plan rounds"})},
          {"courses-planned", taps({"Courses", "Plan rounds", "Heron Weir", "Miller"})},
          {"courses-missed", taps({"Courses", "Missed rounds"})},
          {"evenings", taps({"Courses", "Evenings"})},
          {"evening-free", evening(1)},
          {"evening-lost", evening(5)},
          {"evenings-week", taps({"Courses", "Evenings", "Free evenings"})},
          {"courses-crowd", crowded({"Courses"})},
          {"evenings-crowd", crowded({"Courses", "Evenings"})}};
}

std::vector<FarmState> kit_states() {
  return {{"kit-vaporizers", taps({"Kit"})},
          {"kit-vaporizer", taps({"Kit", "Vaporizer 1"})},
          {"kit-change-battery", taps({"Kit", "Vaporizer 1", "Change battery"})},
          {"kit-cloths", taps({"Kit", "Cloths"})},
          {"kit-batteries", taps({"Kit", "Batteries"})},
          {"kit-acid", taps({"Kit", "Acid"})},
          {"kit-lot", taps({"Kit", "Acid", "25-002"})},
          {"kit-stock", taps({"Kit", "Acid", "Receive stock"})},
          {"kit-expiry", taps({"Kit", "Acid", "Receive stock", "Expiry"})},
          {"kit-vaporizer-bare", taps({"Kit", "Old one"})},
          {"kit-respirator", taps({"Kit", "Respirator", "Respirator 1"})},
          {"kit-pack", taps({"Kit", "Pack list"})},
          {"kit-pack-which", taps({"Kit", "Pack list", "One yard"})},
          {"kit-pack-yard", taps({"Kit", "Pack list", "One yard", "Quarry Gate"})},
          {"kit-battery", taps({"Kit", "Batteries", "Battery 1"})},
          {"kit-crowd", crowded({"Kit"})}};
}

std::vector<FarmState> register_states() {
  using State = ui::BundleSeen::State;
  return {{"register", taps({"Register"})},
          {"register-entry", taps({"Register", "A4: 2 g dihydrate set", "wrong colony"})},
          {"register-struck",
           [](Evening& e) {
             season(e);
             e.tap("Register");
             tap_listed(e, "A4: 2 g dihydrate set");
             e.tap("wrong colony");
             e.hold("Strike");
             e.tap("Back");
           }},
          {"register-write", [](Evening& e) { written(e, State::None, ""); }},
          {"register-writing", [](Evening& e) { written(e, State::Writing, "12 of 40 entries"); }},
          {"register-safe",
           [](Evening& e) {
             written(e, State::Safe, "94 entries of 14 Aug, checked by reading them back.");
           }},
          {"register-failed",
           [](Evening& e) {
             written(e, State::Failed,
                     "KEEPER STICK is full: 2 MB are needed, 1 MB is free. Delete something from "
                     "it or take another stick, then write again.");
           }},
          {"register-written",
           [](Evening& e) {
             written(e, State::Written,
                     "Written, read back and good: duskwalk-2026-08-14-3f9a1c20-6b1d0c44e2a95f17.");
             e.sticks.clear(), e.views.book.place = {}, e.log_folder = "/home/keeper/logs";
           }},
          {"register-held",
           [](Evening& e) {
             written(e, State::Held,
                     "Another program still uses it: close what shows its files, then tap Make it "
                     "safe to pull.");
           }},
          {"register-stick-out",
           [](Evening& e) {
             written(e, State::None, "");
             e.sticks.clear(), e.log_folder = "/home/keeper/logs";
           }},
          {"register-crowd", crowded({"Register"})}};
}

std::vector<FarmState> setup_states() {
  return {{"setup", taps({"Setup"})},
          {"setup-who", taps({"Setup", "Who treats"})},
          {"setup-labels", taps({"Setup", "Label"})},
          {"setup-labels-refused",
           [](Evening& e) {
             season(e);
             left_out(e);
             e.tap("Setup"), e.tap("Label");
           }},
          {"setup-refused",
           [](Evening& e) {
             season(e);
             left_out(e);
             e.tap("Setup"), e.tap("Label"), e.tap("files were left out");
           }},
          {"setup-label", taps({"Setup", "Label", "Elsewhere"})},
          {"setup-numbers", taps({"Setup", "Label numbers"})},
          {"setup-dose-keys", taps({"Setup", "Label numbers", "Dose for a brood box"})},
          {"setup-own", taps({"Setup", "Own numbers"})},
          {"setup-pace-keys", taps({"Setup", "Own numbers", "Load and set"})},
          {"setup-threshold-keys", taps({"Setup", "Own numbers", "Too many, winter cluster"})},
          {"setup-home",
           [](Evening& e) {
             season(e);
             e.tap("Setup"), e.tap("Own numbers");
             tap_listed(e, "Home");
           }},
          {"setup-about", taps({"Setup", "About"})},
          {"setup-first-aid", taps({"Setup", "About", "First aid"})}};
}

}  // namespace

const std::vector<FarmState>& farm_states() {
  static const std::vector<FarmState> all = [] {
    std::vector<FarmState> list;
    for (const auto& part :
         {today_states(), yard_states(), colony_states(), counts_states(), courses_states(),
          kit_states(), register_states(), book_states(), setup_states()})
      list.insert(list.end(), part.begin(), part.end());
    return list;
  }();
  return all;
}

}  // namespace test
