// Which words hold in the place of an entry that was corrected, and what a correction may change.
#include "engine/farm/farm.h"
#include "engine/farm/fold.h"

namespace engine {
namespace {

// What must stay as it was: the entries around it name the same walk, colony, vaporizer or lot.
bool same_thing(const VaporizerSet& a, const VaporizerSet& b) {
  return a.walk == b.walk && a.colony == b.colony && a.vaporizer == b.vaporizer;
}
bool same_thing(const ColonyPassedOver& a, const ColonyPassedOver& b) {
  return a.walk == b.walk && a.colony == b.colony;
}
bool same_thing(const EnteredLate& a, const EnteredLate& b) { return a.walk == b.walk; }
bool same_thing(const StockReceived& a, const StockReceived& b) { return a.lot == b.lot; }
// Of these no other entry names a walk, colony or lot that they would have to keep.
bool same_thing(const NoteWritten&, const NoteWritten&) { return true; }
bool same_thing(const CountTaken&, const CountTaken&) { return true; }
bool same_thing(const BroodNoted&, const BroodNoted&) { return true; }
bool same_thing(const OtherTreatmentGiven&, const OtherTreatmentGiven&) { return true; }
bool same_thing(const AcidDisposed&, const AcidDisposed&) { return true; }

}  // namespace

// A correction comes after what it corrects (strike_marks.cpp), so this ends; also where the marks
// of a checkpoint that somebody forged say otherwise.
std::optional<std::size_t> correction_place(const Log& log, const Entry& entry) {
  std::optional<std::size_t> last;
  for (std::optional<Struck> struck = entry.struck; struck;) {
    const auto at = log.find(struck->by);
    if (!at || log.kind_at(*at) != Log::place_of<EntryCorrected>()) return std::nullopt;
    if (last && *at <= *last) return std::nullopt;
    last = at;
    struck = log.copy(*at).struck;
  }
  return last;
}

std::size_t first_place(const Log& log, std::size_t place) {
  while (log.kind_at(place) == Log::place_of<EntryCorrected>()) {
    const auto before = log.find(std::get<EntryCorrected>(log.copy(place).event.body).entry);
    if (!before || *before >= place) return place;
    place = *before;
  }
  return place;
}

EntryHandle correction_of(const Farm& farm, const Entry& entry) {
  const auto place = correction_place(farm.log, entry);
  return place ? farm.log[*place] : nullptr;
}

std::optional<EntryStruck> strike_in(const Body& body) {
  if (const auto* strike = std::get_if<EntryStruck>(&body)) return *strike;
  if (const auto* c = std::get_if<EntryCorrected>(&body)) return EntryStruck{c->entry, c->reason};
  return std::nullopt;
}

std::optional<Replacement> words_of(const Entry& entry) {
  if (const auto* c = std::get_if<EntryCorrected>(&entry.event.body)) return c->instead;
  return replacement_of(entry.event.body);
}

bool corrects_alike(const Entry& entry, const Replacement& instead) {
  const auto before = words_of(entry);
  if (!before || before->body().index() != instead.body().index()) return false;
  return std::visit(
      [&]<class Kind>(const Kind& old) { return same_thing(old, std::get<Kind>(instead.body())); },
      before->body());
}

}  // namespace engine
