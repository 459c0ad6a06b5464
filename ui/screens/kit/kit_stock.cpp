#include "ui/screens/kit/kit_stock.h"

#include <fmt/format.h>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/body_fields.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

constexpr int kProduct = 1, kAmount = 2, kCode = 3, kExpiry = 4, kRegistration = 5, kSupplier = 6,
              kReceipt = 7, kAddress = 8;

engine::Body received(const Look& look, const StockDraft& d) {
  engine::StockReceived e;
  e.lot = d.more_of.value_or(engine::LotId{look.fresh_id});
  e.product = d.product;
  e.registration = d.registration;
  e.code = d.code;
  e.expiry = d.expiry;
  e.amount = mass_typed(look, d.amount);
  e.supplier = d.supplier;
  e.receipt = d.receipt;
  if (!d.supplier_address.empty()) e.supplier_address = d.supplier_address;
  return e;
}

bool typing_words(Touch& t, KitView& v) {
  struct Words {
    int field;
    const char* title;
    std::string StockDraft::*out;
    bool may_be_empty;
  };
  static constexpr Words kWords[] = {
      {kProduct, "Product, as on its label", &StockDraft::product, false},
      {kCode, "Lot or batch number on the container", &StockDraft::code, true},
      {kRegistration, "Registration number on the label", &StockDraft::registration, true},
      {kSupplier, "Bought from", &StockDraft::supplier, true},
      {kAddress, "Address of the supplier", &StockDraft::supplier_address, true},
      {kReceipt, "Number of the receipt", &StockDraft::receipt, true}};
  for (const Words& w : kWords) {
    if (v.typing.field != w.field) continue;
    typed_words(t, v.typing, {w.title, 40, w.may_be_empty}, v.stock.*w.out);
    return true;
  }
  return false;
}

bool typing_numbers(Touch& t, const Look& look, KitView& v) {
  double value = 0;
  if (v.typing.field == kAmount) {
    const bool ounces = look.farm.setup.mass_unit == engine::MassUnit::Ounce;
    const NumberAsk ask{"How much came", mass_unit(look), 0.1, ounces ? 1000.0 : 30000.0, 1};
    if (typed_number(t, v.typing, ask, value)) v.stock.amount = value;
    return true;
  }
  if (v.typing.field != kExpiry) return false;
  NumberAsk ask{v.stock.no_such_day ? "There is no such day" : "Expiry", "", 20000101, 20991231, 0};
  ask.hint = "year, month, day: 20270301";
  if (!typed_number(t, v.typing, ask, value)) return true;
  const auto date = day_typed(value);
  v.stock.no_such_day = !date;
  if (date) v.stock.expiry = date;
  if (!date) start_number(v.typing, kExpiry);
  return true;
}

std::string amount_words(const Look& look, const StockDraft& d) {
  return d.amount > 0 ? show(look, mass_typed(look, d.amount)) : std::string();
}

void fields(Touch& t, const Rect& room, const Look& look, KitView& v) {
  const StockDraft& d = v.stock;
  std::vector<Row> list = {field("Amount", amount_words(look, d), "what came in")};
  std::vector<int> kinds = {kAmount};
  const auto add = [&](int kind, const Row& row) {
    kinds.push_back(kind);
    list.push_back(row);
  };
  if (!d.more_of) {
    add(kProduct, field("Product", d.product, "as on its label"));
    add(kCode, field("Lot code", d.code, "on the container"));
    add(kExpiry, field("Expiry", d.expiry ? day_words(*d.expiry) : "", "on the container"));
    add(kRegistration, field("Registration", d.registration, "number on the label"));
  }
  add(kSupplier, field("Bought from", d.supplier));
  add(kAddress, field("Its address", d.supplier_address, "of who sold it"));
  add(kReceipt, field("Receipt", d.receipt, "its number"));
  const auto tapped = list_rows(t, room, v.stock_page, list);
  if (!tapped) return;
  const int kind = kinds[*tapped];
  if (kind == kAmount || kind == kExpiry) start_number(v.typing, kind);
  if (kind == kProduct) start_words(v.typing, kind, d.product);
  if (kind == kCode) start_words(v.typing, kind, d.code);
  if (kind == kRegistration) start_words(v.typing, kind, d.registration);
  if (kind == kSupplier) start_words(v.typing, kind, d.supplier);
  if (kind == kAddress) start_words(v.typing, kind, d.supplier_address);
  if (kind == kReceipt) start_words(v.typing, kind, d.receipt);
}

void draft_more(const engine::Lot& lot, KitView& v) {
  v.stock = {lot.id,       lot.product, lot.registration,    lot.code,
             lot.supplier, {},          lot.supplier_address};
  v.stock.expiry = lot.expiry;
  v.page_of = KitPage::Stock;
  v.stock_page = 0;
}

std::vector<std::string> facts_of(const Look& look, const engine::Lot& lot) {
  const auto known = [](const std::string& s) { return s.empty() ? std::string("-") : s; };
  return {"Left: " + show(look, lot.left()) + " of " + show(look, lot.received) +
              (lot.disposed.mg > 0 ? ", " + show(look, lot.disposed) + " disposed of" : ""),
          "Lot code: " + known(lot.code),
          "Expiry: " + (lot.expiry
                            ? day_words(*lot.expiry) + ", " + from_today(*lot.expiry, look.today())
                            : std::string("-")),
          "Registration: " + known(lot.registration),
          "Bought from: " + known(lot.supplier),
          "Receipt: " + known(lot.receipt)};
}

void begin_disposal(const Look& look, const engine::Lot& lot, KitView& v) {
  v.disposal = {.lot = lot.id, .on = look.today()};
  v.form = {};
  v.page_of = KitPage::Dispose;
}

}  // namespace

Ask dispose_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot) {
  engine::AcidDisposed& d = v.disposal;
  const std::vector<FormField> fields = disposal_fields(look, d);
  if (form_panel(t, look, v.form, fields)) return {};
  bool back = false;
  head(t, room, "Dispose of acid", lot.product + ", " + show(look, lot.left()) + " left", &back);
  const engine::Body body = d;
  const bool fine = why_not(look, body) == engine::Refusal::None;
  const bool more = fine && d.amount > lot.left();
  const Act list[] = {{.label = "Save disposal",
                       .second = !fine  ? "the amount is missing"
                                 : more ? "more than is left by the book"
                                        : "",
                       .enabled = fine,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  form_fields(t, room, v.form, fields);
  if (back || save) v.page_of = KitPage::None;
  return save ? Ask{body} : Ask{};
}

Ask lot_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot) {
  if (v.page_of == KitPage::Dispose) return dispose_page(t, room, look, v, lot);
  bool back = false;
  head(t, room, lot.product, "acid on the shelf", &back);
  if (back) v.lot.reset();
  const Act list[] = {{.label = "Receive more", .mark = Mark::More},
                      {.label = "Which colonies?", .second = "that got this lot"},
                      {.label = "Dispose of some", .enabled = lot.received.mg > 0}};
  const auto tapped = acts(t, room, list);
  if (tapped == 0U) draft_more(lot, v);
  if (tapped == 2U) begin_disposal(look, lot, v);
  room.h = std::min(room.h, t.mm(70));
  told(t, room, "", facts_of(look, lot));
  return tapped == 1U ? Ask{ToLotColonies{lot.id, lot.code}} : Ask{};
}

Ask stock_page(Touch& t, Rect room, const Look& look, KitView& v) {
  if (typing_words(t, v) || typing_numbers(t, look, v)) return {};
  bool back = false;
  const StockDraft& d = v.stock;
  head(t, room, d.more_of ? "More of lot " + d.code : std::string("Acid received"),
       d.more_of ? d.product : std::string("a new lot"), &back);
  const engine::Body body = received(look, d);
  const bool fine = !d.product.empty() && why_not(look, body) == engine::Refusal::None;
  const Act list[] = {{.label = "Save stock",
                       .second = d.product.empty() ? "the product is missing"
                                 : fine            ? ""
                                                   : "the amount is missing",
                       .enabled = fine,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  fields(t, room, look, v);
  if (back || save) v.page_of = KitPage::None;
  if (!save) return {};
  v.added = engine::text(std::get<engine::StockReceived>(body).lot);
  return body;
}

}  // namespace ui
