// A fact stands on an entry when it names what that entry brought into the farm, directly or by
// what it names: a count its colony, and so the yard that the colony was added to. That asks for
// more than a fold would (a walk also stands on colonies that it did not reach); at worst a strike
// waits for people who could have let it take effect.
#include "engine/farm/unread_facts.h"

#include <algorithm>
#include <set>
#include <type_traits>
#include <utility>

#include "engine/events/things.h"
#include "engine/farm/causality.h"
#include "engine/farm/fold.h"

namespace engine {
namespace {

using Places = std::vector<std::size_t>;

// A strike that could take others' facts along.
struct Suspect {
  std::size_t place = 0;
  EntryRef by;
  std::optional<std::size_t> strikes;  // what it takes out: facts may stand on it
  std::optional<WalkId> upsets;        // a walk whose other entries may not fit after it
};

Body said_in(const Entry& e) {
  const auto* c = std::get_if<EntryCorrected>(&e.event.body);
  return c == nullptr ? e.event.body : body_of(c->instead);
}

std::optional<WalkId> walk_named(const Body& body) {
  const WalkId* walk = walk_of(body);
  return walk == nullptr ? std::nullopt : std::optional(*walk);
}

class Search {
 public:
  explicit Search(const Farm& farm) : farm_(farm), log_(farm.log) {}

  std::map<std::size_t, Places> all() {
    find_suspects();
    if (suspects_.empty()) return {};
    causality_.emplace(farm_);
    note_tellers();
    std::map<DeviceId, std::set<std::int64_t>> wanted;
    for (const Suspect& s : suspects_) find_unread(s, wanted);
    if (wanted.empty()) return {};
    find_bringers();
    for (const auto& [device, numbers] : wanted)
      for (const std::int64_t n : numbers)
        if (const auto place = log_.find({device, n})) look_at(*place);
    return std::move(found_);
  }

 private:
  void find_suspects() {
    const auto about_another = [](const KindFacts& facts) { return facts.is_about_another(); };
    log_.each_where(about_another, [&](const Entry& e) {
      const auto* back = std::get_if<StrikeTakenBack>(&e.event.body);
      const auto strike = back == nullptr ? strike_in(e.event.body) : struck_by(back->strike);
      const auto target = strike ? log_.find(strike->entry) : std::nullopt;
      if (!target) return;
      if (back == nullptr) named_.insert(*target);
      Suspect s{*log_.find(e.event.ref), e.event.ref, {}, {}};
      const Body words = said_in(log_.copy(*target));
      if (back != nullptr)
        s.upsets = walk_named(words);
      else if (const auto* c = std::get_if<EntryCorrected>(&e.event.body))
        s.upsets = moved_walk(words, body_of(c->instead));
      else if (brought_by(words))
        s.strikes = target;
      if (s.strikes || s.upsets) suspects_.push_back(s);
    });
  }

  [[nodiscard]] std::optional<EntryStruck> struck_by(const EntryRef& ref) const {
    const auto place = log_.find(ref);
    return place ? strike_in(log_.copy(*place).event.body) : std::nullopt;
  }

  // A late entry that moves to another yard leaves the others of its walk behind.
  static std::optional<WalkId> moved_walk(const Body& was, const Body& is) {
    const auto* a = std::get_if<EnteredLate>(&was);
    const auto* b = std::get_if<EnteredLate>(&is);
    return a != nullptr && b != nullptr && a->yard != b->yard ? std::optional(a->walk)
                                                              : std::nullopt;
  }

  // The numbers of other tablets that neither had read the strike nor been read by its writer: of
  // each one run, since who has read a number has read those before it.
  void find_unread(const Suspect& s, std::map<DeviceId, std::set<std::int64_t>>& wanted) const {
    for (const auto& line : farm_.last_seq) {
      const DeviceId device = line.first;
      const std::int64_t last = line.second;
      if (one_line(farm_.branches, device, s.by.device)) continue;
      const Branch* side = find_branch(farm_.branches, device);
      const std::int64_t first = side == nullptr ? 1 : side->from;
      const auto read = [&](std::int64_t n) { return had_read(s, {device, n}); };
      const auto knew = [&](std::int64_t n) { return causality_->had_read({device, n}, s.by); };
      const std::int64_t from = first_not(first, last + 1, read);
      const std::int64_t to = first_not(from, last + 1, [&](auto n) { return !knew(n); });
      for (std::int64_t n = from; n < to; ++n) wanted[device].insert(n);
    }
  }

  // The first number from `low` on for which `is` does not hold; `end`: it holds for all. Where it
  // does not hold for one, it does not for those after.
  template <class Is>
  static std::int64_t first_not(std::int64_t low, std::int64_t end, Is is) {
    while (low < end) {
      const std::int64_t middle = low + (end - low) / 2;
      if (is(middle))
        low = middle + 1;
      else
        end = middle;
    }
    return low;
  }

  void find_bringers() {
    const auto may_bring = [](const KindFacts& facts) {
      return facts.brings != Brings::Nothing || facts.says == Says::Correction;
    };
    log_.each_where(may_bring, [&](const Entry& e) {
      if (const auto thing = brought_by(e.event.body))
        bringers_[*thing].push_back(*log_.find(e.event.ref));
    });
    for (const Suspect& s : suspects_)
      if (s.strikes) struck_.insert(*s.strikes);
  }

  // The struck entries without which the thing would not be there. One that several entries brought
  // (a lot in two deliveries) needs none of them while the first is left, which nobody strikes.
  const std::set<std::size_t>& needed_for(const Thing& thing) {
    const auto [at, fresh] = needed_.try_emplace(thing);
    if (!fresh) return at->second;
    std::set<std::size_t> all;
    const auto bringers = bringers_.find(thing);
    if (bringers == bringers_.end()) return at->second;
    const bool first_left = !named_.contains(bringers->second.front());
    const Places left = first_left ? Places{bringers->second.front()} : bringers->second;
    if (!first_left)
      for (const std::size_t place : left)
        if (struck_.contains(place)) all.insert(place);
    for (const std::size_t place : left) add_needs(log_.copy(place).event.body, thing, all);
    return needed_[thing] = std::move(all);
  }

  void add_needs(const Body& body, const std::optional<Thing>& but, std::set<std::size_t>& into) {
    std::vector<Thing> named;
    each_named(body, [&](const Thing& thing) { named.push_back(thing); });
    for (const Thing& thing : named) {
      if (thing == but) continue;
      const std::set<std::size_t>& needs = needed_for(thing);
      into.insert(needs.begin(), needs.end());
    }
  }

  // What a correction or a taking back stands on is what the entry stands on that it is about.
  void add_needs_behind(const Body& body, std::set<std::size_t>& into) {
    std::optional<EntryRef> about;
    if (const auto strike = strike_in(body)) about = strike->entry;
    if (const auto* back = std::get_if<StrikeTakenBack>(&body)) about = back->strike;
    const auto place = about ? log_.find(*about) : std::nullopt;
    if (!place || !deeper_.insert(*place).second) return;
    const Body behind = log_.copy(*place).event.body;
    add_needs(behind, brought_by(behind), into);
    add_needs_behind(behind, into);
  }

  void look_at(std::size_t place) {
    const Entry e = log_.copy(place);
    if (!facts_of(e.event.body).is_fact()) return;
    std::set<std::size_t> needs;
    add_needs(e.event.body, brought_by(e.event.body), needs);
    deeper_.clear();
    add_needs_behind(e.event.body, needs);
    const auto walk = walk_named(said_in(e));
    for (const Suspect& s : suspects_) {
      const bool stands =
          (s.strikes && needs.contains(*s.strikes)) || (s.upsets && s.upsets == walk);
      if (stands && apart(s, e.event.ref)) found_[s.place].push_back(place);
    }
  }

  [[nodiscard]] bool apart(const Suspect& s, const EntryRef& fact) const {
    return !one_line(farm_.branches, s.by.device, fact.device) && !had_read(s, fact) &&
           !causality_->had_read(fact, s.by);
  }

  // A tablet of an earlier version does not tell what it had read: what comes before its strike in
  // the common order counts as read then, as it did.
  [[nodiscard]] bool had_read(const Suspect& s, const EntryRef& fact) const {
    const bool tells = std::any_of(tellers_.begin(), tellers_.end(), [&](const auto& teller) {
      return teller.second < s.by.seq && goes_on_from(farm_.branches, s.by.device, teller.first);
    });
    if (tells) return causality_->had_read(s.by, fact);
    const auto place = log_.find(fact);
    return place && *place < s.place;
  }

  void note_tellers() {
    log_.each<ClockFollowed>([&](const Entry& e) {
      if (std::get<ClockFollowed>(e.event.body).read)
        tellers_.try_emplace(e.event.ref.device, e.event.ref.seq);
    });
  }

  const Farm& farm_;
  const Log& log_;
  std::vector<Suspect> suspects_;
  std::optional<Causality> causality_;
  std::map<DeviceId, std::int64_t> tellers_;  // from which number on they tell what they had read
  std::map<Thing, Places> bringers_;
  std::set<std::size_t> named_;   // places that a strike or correction names
  std::set<std::size_t> struck_;  // places that a suspect strikes
  std::map<Thing, std::set<std::size_t>> needed_;
  std::set<std::size_t> deeper_;
  std::map<std::size_t, Places> found_;
};

}  // namespace

std::map<std::size_t, std::vector<std::size_t>> unread_facts(const Farm& farm) {
  if (farm.last_seq.size() < 2) return {};
  return Search(farm).all();
}

}  // namespace engine
