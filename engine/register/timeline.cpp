#include "engine/register/timeline.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/register/register.h"
#include "engine/words/lookup.h"

namespace engine {
namespace {

std::string boxes_words(int boxes, bool supers) {
  return counted(static_cast<std::size_t>(boxes), "brood box", "brood boxes") +
         (supers ? ", honey supers on" : ", no honey supers");
}

std::string count_words(const CountTaken& c) {
  std::string out = counted(static_cast<std::size_t>(c.mites), "mite", "mites");
  if (c.bees && *c.bees > 0)
    out += fmt::format(" on {} bees: {:.1f} in 100", *c.bees, 100.0 * c.mites / *c.bees);
  if (c.hours && *c.hours > 0)
    out += fmt::format(" in {} h: {:.1f} a day", *c.hours, 24.0 * c.mites / *c.hours);
  out += std::string(", ") + words(c.method);
  return c.note.empty() ? out : out + ": " + c.note;
}

class Life {
 public:
  Life(const Farm& farm, const LogIndex& book, ColonyId colony, Units units)
      : farm_(farm), book_(book), colony_(colony), units_(units) {}

  std::vector<LifeItem> all() {
    const auto places = book_.of_colony(colony_);
    for (auto place = places.rbegin(); place != places.rend(); ++place)
      look_at(farm_.log.copy(*place));
    RegisterQuery query;
    query.colony = colony_;
    for (const RegisterRow& r : register_rows(farm_, book_, query))
      if (r.counts()) add_row(r);
    std::stable_sort(items_.begin(), items_.end(), [](const LifeItem& a, const LifeItem& b) {
      if (a.on != b.on) return a.on < b.on;
      return a.at && b.at && a.at->at < b.at->at;
    });
    return std::move(items_);
  }

 private:
  void add(const Entry& e, LifeWhat what, std::string words, std::optional<Date> on = {}) {
    LifeItem item{on.value_or(local_date(e.event.stamp)),
                  e.event.stamp,
                  what,
                  std::move(words),
                  false,
                  e.event.ref};
    if (on && *on != local_date(e.event.stamp)) item.at.reset();
    items_.push_back(std::move(item));
  }

  void look_at(const Entry& e);
  void add_places(const Entry& e);
  void add_row(const RegisterRow& r);

  const Farm& farm_;
  const LogIndex& book_;
  ColonyId colony_;
  Units units_;
  std::vector<LifeItem> items_;
};

void Life::look_at(const Entry& e) {
  if (const auto c = holds<CountTaken>(farm_, e); c && c->colony == colony_)
    add(e, LifeWhat::Count, count_words(*c), c->on);
  if (const auto n = holds<NoteWritten>(farm_, e); n && n->colony == colony_)
    add(e, LifeWhat::Note, "note: " + n->text);
  if (const auto b = holds<BroodNoted>(farm_, e);
      b && std::find(b->colonies.begin(), b->colonies.end(), colony_) != b->colonies.end())
    add(e, LifeWhat::Brood, words(b->what), b->on);
  if (e.counts()) add_places(e);
}

void Life::add_places(const Entry& e) {
  const Body& body = e.event.body;
  if (const auto* a = std::get_if<ColonyAdded>(&body); a && a->colony == colony_)
    add(e, LifeWhat::Boxes,
        "in " + yard_called(farm_, a->yard) + ": " + boxes_words(a->brood_boxes, a->supers_on));
  if (const auto* c = std::get_if<ColonyChanged>(&body); c && c->colony == colony_) {
    std::string out;
    const auto say = [&out](const std::string& part) { out += (out.empty() ? "" : ", ") + part; };
    if (c->brood_boxes)
      say(counted(static_cast<std::size_t>(*c->brood_boxes), "brood box", "brood boxes"));
    if (c->supers_on) say(*c->supers_on ? "honey supers on" : "honey supers off");
    if (c->name) say("now called " + *c->name);
    if (c->note && !c->note->empty()) say(*c->note);
    if (!out.empty()) add(e, LifeWhat::Boxes, out);
  }
  if (const auto* m = std::get_if<ColonyMoved>(&body); m && m->colony == colony_)
    add(e, LifeWhat::Moved, "moved to " + yard_called(farm_, m->to));
  if (const auto* l = std::get_if<ColonyLost>(&body); l && l->colony == colony_)
    add(e, LifeWhat::Lost, l->reason.empty() ? "lost" : "lost: " + l->reason);
  if (const auto* s = std::get_if<ComeBackSettled>(&body); s && s->colony == colony_)
    add(e, LifeWhat::Settled, "no further visit needed: " + s->reason);
  if (const auto* m = std::get_if<Mishap>(&body); m && m->colony == colony_)
    add(e, LifeWhat::Mishap, words(m->what) + (m->note.empty() ? "" : ": " + m->note));
}

void Life::add_row(const RegisterRow& r) {
  LifeItem item{r.date, r.at, LifeWhat::Vapor, {}, false, r.entry};
  if (r.outcome == Outcome::PassedOver || r.outcome == Outcome::NotReached) {
    item.what = LifeWhat::Passed;
    item.words = r.passed ? std::string("passed over, ") + words(*r.passed) : words(r.outcome);
  } else if (r.method != Method::Vapor || !r.dose) {
    item.what = LifeWhat::Other;
    item.words =
        r.product + (r.dose_text.empty() ? "" : ", " + r.dose_text) + " (" + words(r.method) + ")";
  } else {
    item.words = words(*r.dose, r.basis, units_) + " vapor";
    if (r.dwell) item.words += ", dwell " + minutes_seconds(r.dwell->length);
    if (r.seal) item.words += ", closed " + minutes_seconds(r.seal->length);
    if (!r.lot_code.empty()) item.words += ", lot " + r.lot_code;
    item.warns = r.is_against_label();
    if (r.over_label) item.words += ", over the label";
  }
  if (r.entered) item.words += ", entered late";
  items_.push_back(item);
  for (const ComeBackReason& why : r.come_back) {
    LifeItem back = item;
    back.what = LifeWhat::ComeBack;
    back.words = "come back: " + words(why);
    back.warns = true;
    items_.push_back(std::move(back));
  }
}

}  // namespace

std::vector<LifeItem> timeline(const Farm& farm, const LogIndex& book, ColonyId colony,
                               Units units) {
  return Life(farm, book, colony, units).all();
}

}  // namespace engine
