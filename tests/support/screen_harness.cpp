#include "tests/support/screen_harness.h"

#include <imgui.h>

#include <stdexcept>

#include "ui/screens/shell/all_screens.h"
#include "ui/screens/shell/go_to.h"

namespace test {

engine::LabelRules test_rules(engine::Supers supers) {
  engine::LabelRules r;
  r.profile = "test";
  r.product = "Oxalic acid, label of the test";
  r.registration = "REG-0";
  r.per_brood_box = {1000};
  r.most_per_brood_box = engine::Mass{2000};
  r.supers = supers;
  r.cartridge = "acid gas + P100";
  return r;
}

Evening::Evening(const Outfit& outfit, const Panel& panel, const ui::Theme& theme)
    : began(*engine::stamp_from_rfc3339(outfit.began)), answers(outfit.led), rig_(panel, theme) {
  began.boot = "boot";
  set_up(outfit);
  views.screen = ui::ScreenName::Walk;
  views.walk.opening.yard = id<engine::YardId>(1);
  rig_.show([this](ui::Touch& t) { draw(t); });
}

void Evening::set_up(const Outfit& o) {
  engine::SetupChanged setup;
  setup.operator_name = "Wren Aldous";
  setup.operator_address = "2 Quarry Cottages, Nether Fold";
  setup.home = o.home;
  if (o.label) setup.rules = test_rules(o.supers);
  write(setup);
  const auto yard = id<engine::YardId>(1);
  std::optional<engine::Place> place;
  if (o.led) place = engine::Place{45'000'000, -119'000'000};
  write(engine::YardAdded{yard, o.yard, place, "", ""});
  for (int n = 1; n <= o.colonies; ++n) {
    const auto i = static_cast<std::size_t>(n - 1);
    engine::ColonyAdded c{.colony = colony(n), .yard = yard, .order = n};
    c.name = i < o.names.size() ? o.names[i] : "A" + std::to_string(n);
    c.brood_boxes = i < o.boxes.size() ? o.boxes[i] : 2;
    if (o.spots) c.spot = engine::Spot{(n - 1) % 5 * 300, (n - 1) / 5 * -400};
    write(c);
  }
  int item = 1;
  const auto add = [&](engine::KitSort sort, int many) {
    for (int n = 1; n <= many; ++n)
      write(engine::KitAdded{id<engine::KitId>(item++), sort, std::to_string(n)});
  };
  add(engine::KitSort::Vaporizer, o.vaporizers);
  add(engine::KitSort::Cloth, o.cloths);
  add(engine::KitSort::Respirator, o.respirator ? 1 : 0);
  add(engine::KitSort::Battery, 4);
  write(engine::StockReceived{.lot = id<engine::LotId>(1),
                              .product = "Oxalic acid dihydrate",
                              .code = "24-118",
                              .amount = {500'000}});
}

engine::Stamp Evening::now() const { return engine::after(began, engine::Ms{rig_.now}); }

ui::Look Evening::look() const {
  static const std::string kStorePath = "/home/keeper/.local/share/duskwalk/farm.journal";
  looked_at_ = now();
  return {.farm = farm,
          .device = device(),
          .now = looked_at_,
          .fresh_id = id<engine::WalkId>(fresh_).bytes,
          .answers = answers,
          .book = book,
          .labels = labels,
          .methods = methods,
          .refused_files = refused_files,
          .store_path = kStorePath,
          .log_folder = log_folder,
          .sticks = sticks,
          .bundle = bundle,
          .taken_in = taken_in,
          .copies = copies,
          .exchange = exchange,
          .trust = trust,
          .troubles = troubles,
          .paper_line = paper_line,
          .mendable = mendable};
}

const engine::Walk* Evening::walk() const { return engine::walk_under_way(farm, device()); }

void Evening::write(engine::Body body) {
  const engine::Event e{{device(), farm.last_seq[device()] + 1}, now(), std::move(body)};
  const engine::Refusal refusal = engine::why_not(farm, e);
  if (refusal != engine::Refusal::None) {
    refused.push_back(std::string(engine::kind(e.body)) + ": " + engine::name(refusal));
    return;
  }
  farm = engine::apply(std::move(farm), e);
}

void Evening::draw(ui::Touch& t) {
  book.read(farm, engine::LogIndex::kPiece);
  answers.advance(farm);
  const ui::Look l = look();
  ui::Ask ask = ui::all_screens(t, l, views);
  if (!std::holds_alternative<std::monostate>(ask)) asked_ = std::move(ask);
}

void Evening::carry_out() {
  if (std::holds_alternative<std::monostate>(asked_)) return;
  ++fresh_;
  if (const auto* body = std::get_if<engine::Body>(&asked_))
    write(*body);
  else if (const auto* all = std::get_if<ui::Entries>(&asked_))
    for (const engine::Body& one : all->bodies) write(one);
  else if (const auto* way = std::get_if<ui::GoTo>(&asked_))
    ui::go_to(*way, views);
  else
    outside.push_back(asked_);
  asked_ = {};
}

void Evening::wait(std::chrono::seconds length) {
  for (std::chrono::seconds s{0}; s < length; ++s) {
    rig_.now += 1000;
    rig_.frame();
    carry_out();
  }
}

void Evening::jump(std::chrono::seconds length) {
  rig_.now += length.count() * 1000;
  rig_.frame();
}

ui::Target Evening::target(const std::string& label) const {
  std::vector<ui::Target> found;
  for (const ui::Target& t : rig_.touch.targets()) {
    if (t.label == label) return t;
    if (t.label.find(label) != std::string::npos) found.push_back(t);
  }
  if (found.size() == 1) return found.front();
  throw std::runtime_error((found.empty() ? "no target is called " : "more than one target has ") +
                           label + "; on the screen: " + all_words());
}

bool Evening::has(const std::string& label) const {
  for (const ui::Target& t : rig_.touch.targets())
    if (t.label.find(label) != std::string::npos) return true;
  return false;
}

std::string Evening::all_words() const {
  std::string all;
  for (const ui::ShownText& s : rig_.touch.texts()) all += s.text + " | ";
  return all;
}

void Evening::finger(const std::string& label, bool held) {
  const ui::Target t = target(label);
  if (!t.enabled) throw std::runtime_error(label + " is disabled");
  if (t.hold != held)
    throw std::runtime_error(label + (t.hold ? " has to be held" : " is not held but tapped"));
  rig_.now += 400;  // past the guard against bounces
  rig_.press(t.rect.mid_x(), t.rect.mid_y());
  carry_out();
  rig_.now += held ? 1100 : 60;
  if (held) rig_.frame();
  carry_out();
  rig_.lift();
  carry_out();
  rig_.frame();
  ++taps;
}

void Evening::tap(const std::string& label) { finger(label, false); }
void Evening::hold(const std::string& label) { finger(label, true); }

}  // namespace test
