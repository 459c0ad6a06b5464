#include "engine/farm/packed_state.h"

namespace engine {
// How many members an aggregate has: with how many it can be brace-initialised. A struct that got a
// member which is not listed below does not compile.
namespace member_counting {

struct Anything {
  template <class T>
  operator T() const;  // only asked for, never called
};
template <class T, class... Args>
constexpr std::size_t member_count() {
  if constexpr (requires { T{Args{}..., Anything{}}; })
    return member_count<T, Args..., Anything>();
  else
    return sizeof...(Args);
}

}  // namespace member_counting

namespace {

using member_counting::member_count;

// f(member, member, ...), all of them.
template <class Type, class F, class... Members>
void all_of(F& f, Members&... listed) {
  static_assert(member_count<Type>() == sizeof...(listed), "a member is not packed");
  f(listed...);
}
template <class Self, class Type>
concept Is = std::is_same_v<std::remove_const_t<Self>, Type>;

}  // namespace

// Outside of the unnamed namespace: pack.h finds them by their arguments.
template <Is<Yard> S, class F>
void members(S& s, F&& f) {
  all_of<Yard>(f, s.id, s.name, s.place, s.zone, s.note, s.lost, s.gate, s.address, s.access,
               s.landowner, s.private_note);
}
template <Is<VaporGiven> S, class F>
void members(S& s, F&& f) {
  all_of<VaporGiven>(f, s.on, s.sum, s.last, s.times);
}
template <Is<BroodNote> S, class F>
void members(S& s, F&& f) {
  all_of<BroodNote>(f, s.on, s.what);
}
template <Is<Colony> S, class F>
void members(S& s, F&& f) {
  all_of<Colony>(f, s.id, s.yard, s.name, s.brood_boxes, s.supers_on, s.spot, s.order, s.note,
                 s.lost, s.lost_why, s.last_walk, s.vapor, s.brood, s.sort, s.queenless, s.leaks,
                 s.board_in);
}
template <Is<KitItem> S, class F>
void members(S& s, F&& f) {
  all_of<KitItem>(f, s.id, s.sort, s.name, s.retired, s.battery, s.settings_since_clean,
                  s.settings_since_charge, s.vaporized_since_charge, s.needs_charge, s.cartridge,
                  s.cartridge_since, s.cartridge_last, s.fit_tested, s.watt_hours);
}
template <Is<Lot> S, class F>
void members(S& s, F&& f) {
  all_of<Lot>(f, s.id, s.product, s.registration, s.code, s.expiry, s.supplier, s.receipt,
              s.received, s.used, s.disposed, s.supplier_address);
}
template <Is<Vaporized> S, class F>
void members(S& s, F&& f) {
  all_of<Vaporized>(f, s.on, s.vaporizer);
}
template <Is<OtherGiven> S, class F>
void members(S& s, F&& f) {
  all_of<OtherGiven>(f, s.entry, s.on);
}
template <Is<Count> S, class F>
void members(S& s, F&& f) {
  all_of<Count>(f, s.entry, s.taken);
}
template <Is<Course> S, class F>
void members(S& s, F&& f) {
  all_of<Course>(f, s.id, s.yard, s.rounds, s.ended, s.end_reason, s.asked);
}
template <Is<Evenings> S, class F>
void members(S& s, F&& f) {
  all_of<Evenings>(f, s.weekly, s.changed, s.lost);
}
template <Is<ClothLeft> S, class F>
void members(S& s, F&& f) {
  all_of<ClothLeft>(f, s.walk, s.colony);
}
template <Is<Setup> S, class F>
void members(S& s, F&& f) {
  all_of<Setup>(f, s.operator_name, s.operator_address, s.temperature_unit, s.mass_unit, s.theme,
                s.rules, s.home, s.thresholds, s.clean_every, s.cartridge_hours, s.pace, s.spoken,
                s.speech_speed, s.sound_volume, s.language, s.brightness, s.act_key,
                s.half_cup_bees, s.emergency_number);
}
template <Is<TabletSetup> S, class F>
void members(S& s, F&& f) {
  all_of<TabletSetup>(f, s.setup, s.offered, s.kept);
}
template <Is<Elapsed> S, class F>
void members(S& s, F&& f) {
  all_of<Elapsed>(f, s.length, s.sure);
}
template <Is<Halt> S, class F>
void members(S& s, F&& f) {
  all_of<Halt>(f, s.since, s.why);
}
template <Is<Treatment> S, class F>
void members(S& s, F&& f) {
  all_of<Treatment>(f, s.entry, s.vaporizer, s.battery, s.lot, s.dose, s.brood_boxes, s.supers_on,
                    s.over_label, s.set_at, s.lifted_at, s.cloth, s.uncovered_at,
                    s.uncover_inferred, s.lift_inferred, s.flight, s.late, s.late_dwell,
                    s.late_seal, s.halted, s.halts, s.rested);
}
template <Is<StopMishap> S, class F>
void members(S& s, F&& f) {
  all_of<StopMishap>(f, s.entry, s.what, s.note, s.at);
}
template <Is<Stop> S, class F>
void members(S& s, F&& f) {
  all_of<Stop>(f, s.colony, s.phase, s.treatments, s.passed, s.pass_note, s.passed_at, s.flight,
               s.mishaps);
}
template <Is<Walk> S, class F>
void members(S& s, F&& f) {
  all_of<Walk>(f, s.id, s.yard, s.device, s.course, s.opened, s.conditions, s.rules, s.vaporizers,
               s.cloths, s.respirator, s.operator_name, s.operator_address, s.reason, s.confirmed,
               s.stops, s.flight, s.mishaps, s.paused, s.closed, s.planned, s.past, s.closed_why);
}
template <Is<FarmState> S, class F>
void members(S& s, F&& f) {
  all_of<FarmState>(f, s.setups, s.yards, s.colonies, s.in_yard, s.vaporized, s.otherwise_treated,
                    s.kit, s.lots, s.counts, s.courses, s.evenings, s.drive_minutes, s.air_expected,
                    s.walks, s.walk_under_way, s.cloths_left);
}

namespace {

// What is neither a list nor a map of the library.
class PackParts {
 public:
  explicit PackParts(Packer& into) : into_(into) {}
  template <class... Parts>
  void operator()(const Parts&... parts) {
    (one(parts), ...);
  }

 private:
  template <class Part>
  void one(const Part& part) {
    into_.add(part);
  }
  void one(const Lists<YardId, ColonyId>&) {}  // follows from the colonies
  void one(const Counts& counts) { into_.each(counts); }
  template <class Key, class T>
  void one(const Lists<Key, T>& lists) {
    into_.add(lists.keys());
    lists.each([this](const Key& key, const std::vector<T>& list) {
      into_.add(key);
      into_.add(list);
    });
  }
  void one(const Walks& walks) {
    into_.add(walks.size());
    for (const auto& [id, walk] : walks) into_.add(walk);
  }

  Packer& into_;
};

class UnpackParts {
 public:
  explicit UnpackParts(Unpacker& from) : from_(from) {}
  template <class... Parts>
  void operator()(Parts&... parts) {
    (one(parts), ...);
  }

 private:
  template <class Part>
  void one(Part& part) {
    from_.get(part);
  }
  void one(Lists<YardId, ColonyId>&) {}
  template <class Key, class T>
  void one(Lists<Key, T>& lists) {
    for (std::size_t i = from_.count(); i > 0 && !from_.failed(); --i) {
      Key key;
      from_.get(key);
      from_.get(lists.change(key));
    }
  }
  void one(Counts& counts) {
    for (std::size_t i = from_.count(); i > 0 && !from_.failed(); --i) {
      Count count;
      from_.get(count);
      counts.push_back(std::move(count));
    }
  }
  void one(Walks& walks) {
    for (std::size_t i = from_.count(); i > 0 && !from_.failed(); --i) {
      Walk walk;
      from_.get(walk);
      if (!well_formed(walk) || walks.find(walk.id) != walks.end()) return from_.fail();
      walks.put(std::move(walk));
    }
  }

  Unpacker& from_;
};

}  // namespace

void pack(const FarmState& state, Packer& into) { members(state, PackParts(into)); }

bool unpack(Unpacker& from, FarmState& state) {
  state = FarmState{};
  members(state, UnpackParts(from));
  for (const auto& [id, colony] : state.colonies) state.in_yard.change(colony.yard).push_back(id);
  return !from.failed();
}

}  // namespace engine
