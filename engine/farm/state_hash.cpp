// FNV-1a, 64 bit (the published constants), over every field in a fixed order. Only whole numbers,
// text and their order go in, so that no compiler, option or machine can make a difference.
#include <type_traits>

#include "engine/farm/farm.h"

namespace engine {
namespace {

class Hasher {
 public:
  template <class... Ts>
  void all(const Ts&... values) {
    (add(values), ...);
  }

  template <class T>
  requires std::is_integral_v<T> || std::is_enum_v<T>
  void add(T value) {
    auto bits = static_cast<std::uint64_t>(static_cast<std::int64_t>(value));
    for (int i = 0; i < 8; ++i, bits >>= 8) byte(static_cast<std::uint8_t>(bits));
  }
  void add(const std::string& text) {
    add(text.size());
    for (const char c : text) byte(static_cast<std::uint8_t>(c));
  }
  template <class Tag>
  void add(const Id<Tag>& id) {
    for (const std::uint8_t b : id.bytes) byte(b);
  }
  template <class T>
  void add(const std::optional<T>& maybe) {
    add(maybe.has_value());
    if (maybe) add(*maybe);
  }
  template <class T>
  void add(const std::vector<T>& list) {
    add(list.size());
    for (const T& item : list) add(item);
  }
  template <class T>
  void add(const std::set<T>& items) {
    add(items.size());
    for (const T& item : items) add(item);
  }
  template <class K, class V>
  void add(const std::map<K, V>& map) {
    add(map.size());
    for (const auto& [key, value] : map) all(key, value);
  }
  template <class Rep, class Period>
  void add(std::chrono::duration<Rep, Period> d) {
    add(static_cast<std::int64_t>(d.count()));
  }
  void add(Date d) { add(days(d).time_since_epoch()); }
  void add(Mass m) { add(m.mg); }
  void add(Temperature t) { add(t.tenths_c); }
  void add(Spot s) { all(s.x_cm, s.y_cm); }
  void add(Place p) { all(p.lat_udeg, p.lon_udeg); }
  void add(const Stamp& s) { all(s.at.time_since_epoch(), s.zone, s.boot.str(), s.since_boot); }

  // A field that events and farms did not always have: unset it adds nothing, so that what was
  // written before there was such a field keeps its number.
  template <class T>
  void add_if_set(const char* key, const std::optional<T>& later) {
    if (later) all(std::string(key), *later);
  }
  template <class K, class V>
  void add_if_set(const char* key, const std::map<K, V>& later) {
    if (!later.empty()) all(std::string(key), later);
  }
  template <class T>
  void add_if_set(const char* key, const std::vector<T>& later) {
    if (!later.empty()) all(std::string(key), later);
  }
  void add_words(const char* key, const std::string& later) {
    if (!later.empty()) all(std::string(key), later);
  }
  template <class A, class B>
  void add(const std::pair<A, B>& p) {
    all(p.first, p.second);
  }

  // Everything that lists its own fields: bodies, rules, conditions, references.
  template <class T>
  requires requires(const T& t) {
    T::fields(t, [](const char*, const auto&) {});
  }
  void add(const T& listed) {
    T::fields(listed, [this]<class Field>(const char* key, const Field& field) {
      if constexpr (requires { field.has_value(); })
        this->add_if_set(key, field);
      else
        this->add(field);
    });
  }

  void add(const Replacement& instead) {
    std::visit(
        [this]<class Kind>(const Kind& body) {
          add(std::string(Kind::kKind));
          add(body);
        },
        instead.body());
  }

  void add(const Yard& y) {
    all(y.id, y.name, y.place, y.zone, y.note, y.lost);
    add_if_set("gate", y.gate);
    add_words("address", y.address), add_words("access", y.access);
    add_words("landowner", y.landowner), add_words("private_note", y.private_note);
  }
  void add(const VaporGiven& v) { all(v.on, v.sum, v.last, v.times); }
  void add(const Colony& c) {
    all(c.id, c.yard, c.name, c.brood_boxes, c.supers_on, c.spot, c.order, c.note, c.lost,
        c.lost_why, c.last_walk, c.vapor);
    add_if_set("brood", c.brood);
    if (c.sort != ColonySort::Hive) all(std::string("sort"), c.sort);
    if (c.queenless) add(std::string("queenless"));
    add_if_set("leaks", c.leaks);
    add_if_set("board_in", c.board_in);
  }
  void add(const BroodNote& n) { all(n.on, n.what); }
  void add(const KitItem& k) {
    all(k.id, k.sort, k.name, k.retired, k.battery, k.settings_since_clean, k.settings_since_charge,
        k.vaporized_since_charge, k.needs_charge, k.cartridge, k.cartridge_since);
    add_if_set("cartridge_last", k.cartridge_last), add_if_set("fit_tested", k.fit_tested);
    add_if_set("watt_hours", k.watt_hours);
  }
  void add(const Lot& l) {
    all(l.id, l.product, l.registration, l.code, l.expiry, l.supplier, l.receipt, l.received,
        l.used);
    if (l.disposed.mg != 0) all(std::string("disposed"), l.disposed);
    add_words("supplier_address", l.supplier_address);
  }
  void add(const Counts& counts) {
    add(counts.size());
    for (const Count& count : counts) add(count);
  }
  void add(const Walks& walks) {
    add(walks.size());
    for (const auto& [id, walk] : walks) all(id, walk);
  }
  void add(const Log& log) {
    add(log.size());
    log.scan(0, [this](std::size_t, const Entry& e) { add(e); });
  }
  void add(const Count& c) { all(c.entry, c.taken); }
  void add(const Course& c) {
    all(c.id, c.yard, c.rounds, c.ended, c.end_reason);
    add_if_set("asked", c.asked);
  }
  void add(const ClothLeft& c) { all(c.walk, c.colony); }
  void add(const Setup& s) {
    all(s.operator_name, s.operator_address, s.temperature_unit, s.mass_unit, s.theme, s.rules);
    add_if_set("home", s.home), add_if_set("thresholds", s.thresholds);
    add_if_set("clean_every", s.clean_every);
    add_if_set("cartridge_hours", s.cartridge_hours);
    add_if_set("pace", s.pace);
    add_if_set("spoken", s.spoken), add_if_set("speech_speed", s.speech_speed);
    add_if_set("sound_volume", s.sound_volume);
    add_if_set("language", s.language), add_if_set("brightness", s.brightness);
    add_if_set("act_key", s.act_key), add_if_set("half_cup_bees", s.half_cup_bees);
    add_words("emergency_number", s.emergency_number);
  }
  void add(const TabletSetup& s) { all(s.setup, s.offered, s.kept); }
  // As long as one tablet has set anything, what it set stands where the setup always stood.
  void add_setups(const std::map<DeviceId, TabletSetup>& setups) {
    if (setups.size() == 1) return add(setups.begin()->second.setup);
    add(Setup{});
    add_if_set("setups", setups);
  }
  void add(const Elapsed& e) { all(e.length, e.sure); }
  void add(const Halt& h) { all(h.since, h.why); }
  void add(const Treatment& t) {
    all(t.entry, t.vaporizer, t.battery, t.lot, t.dose, t.brood_boxes, t.supers_on, t.over_label,
        t.set_at, t.lifted_at, t.cloth, t.uncovered_at, t.uncover_inferred, t.lift_inferred,
        t.flight);
    if (t.late) all(std::string("late"), t.late_dwell, t.late_seal);
    if (t.halts > 0) all(std::string("halts"), t.halts, t.rested, t.halted);
  }
  void add(const StopMishap& m) { all(m.entry, m.what, m.note, m.at); }
  void add(const Stop& s) {
    all(s.colony, s.phase, s.treatments, s.passed, s.pass_note, s.passed_at, s.flight, s.mishaps);
  }
  void add(const Walk& w) {
    all(w.id, w.yard, w.device, w.course, w.opened, w.conditions, w.rules, w.vaporizers, w.cloths,
        w.respirator, w.operator_name, w.operator_address, w.reason, w.confirmed, w.stops, w.flight,
        w.mishaps, w.paused, w.closed);
    add_if_set("planned", w.planned);
    if (w.past) add(std::string("past"));
    add_if_set("closed_why", w.closed_why);
  }
  void add(const Struck& s) { all(s.by, s.reason, s.at); }
  void add(const Entry& e) {
    add(e.event.ref);
    add(e.event.stamp);
    add(std::string(kind(e.event.body)));
    std::visit([this](const auto& body) { add(body); }, e.event.body);
    all(e.struck, e.fallen);
  }

  [[nodiscard]] std::uint64_t value() const { return value_; }

 private:
  void byte(std::uint8_t b) { value_ = (value_ ^ b) * 1'099'511'628'211ULL; }

  std::uint64_t value_ = 14'695'981'039'346'656'037ULL;
};

}  // namespace

bool same_words(const Replacement& a, const Replacement& b) {
  Hasher one, other;
  one.add(a), other.add(b);
  return one.value() == other.value();
}

std::uint64_t state_hash(const Farm& f) {
  Hasher hasher;
  hasher.add_setups(f.setups);
  hasher.all(f.yards, f.colonies, f.kit, f.lots, f.counts, f.courses, f.walks, f.walk_under_way,
             f.cloths_left, f.last_seq, f.log);
  hasher.add_if_set("weekly", f.evenings.weekly);
  hasher.add_if_set("changed", f.evenings.changed);
  hasher.add_if_set("lost", f.evenings.lost);
  hasher.add_if_set("drive_minutes", f.drive_minutes);
  hasher.add_if_set("air_expected", f.air_expected);
  hasher.add_if_set("branches", f.branches);
  return hasher.value();
}

}  // namespace engine
