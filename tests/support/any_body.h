// tests/support/any_body.h -- entries of any kind with any words, from few names, so that they
// often mean each other: what a broken or hostile tablet could send.
#pragma once
#include <random>
#include <string>

#include "engine/events/event.h"
#include "tests/support/evening.h"

namespace evening {

class AnyBody {
 public:
  // Entries that are named are of tablets 1 to `tablets`.
  AnyBody(std::mt19937& random, int tablets) : random_(random), tablets_(tablets) {}

  Body operator()() {
    Body body;
    make(body, pick(static_cast<int>(std::variant_size_v<AnyKind>)));
    return body;
  }
  int pick(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }

  template <class T>
  void operator()(const char*, T& value) {
    fill(value);
  }

 private:
  template <std::size_t I = 0>
  void make(Body& body, int kind) {
    if constexpr (I < std::variant_size_v<AnyKind>) {
      if (kind != static_cast<int>(I)) return make<I + 1>(body, kind);
      std::variant_alternative_t<I, AnyKind> made;
      fill(made);
      body = std::move(made);
    }
  }
  template <std::size_t I = 0>
  void make(ReplacementBody& body, int kind) {
    if constexpr (I < std::variant_size_v<ReplacementBody>) {
      if (kind != static_cast<int>(I)) return make<I + 1>(body, kind);
      fill(body.emplace<I>());
    }
  }

  template <class Tag>
  void fill(Id<Tag>& id) {
    id = evening::id<Id<Tag>>(1 + pick(4));
  }
  void fill(KitId& id) {
    const KitId some[] = {vaporizer(1), vaporizer(2), cloth(1), cloth(2), battery(1), respirator()};
    id = some[pick(6)];
  }
  void fill(std::string& s) {
    s = pick(4) == 0 ? "" : std::string(1, static_cast<char>('a' + pick(3)));
  }
  void fill(bool& b) { b = pick(2) == 0; }
  void fill(int& i) { i = pick(8) == 0 ? -1 : pick(5); }
  void fill(std::int64_t& i) { i = pick(1000); }
  void fill(Mass& m) { m.mg = pick(6) == 0 ? 0 : 500 * pick(5); }
  void fill(Temperature& t) { t.tenths_c = 10 * pick(30); }
  void fill(Date& d) {
    if (pick(12) != 0)
      d = std::chrono::sys_days{local_date(at(0))} - std::chrono::days{pick(5)};
    else
      d = Date{};
  }
  void fill(Spot& s) { s = {pick(500), pick(500)}; }
  void fill(Place& p) { p = {pick(8) == 0 ? 95'000'000 : 46'000'000, 8'000'000}; }
  void fill(Seconds& s) { s = Seconds{pick(900)}; }
  template <Named E>
  void fill(E& e) {
    e = static_cast<E>(pick(static_cast<int>(enum_names(E{}).size())));
  }
  void fill(LabelRules& r) {
    if (pick(10) != 0) r = rules();
  }
  void fill(EntryRef& ref) { ref = {evening::id<DeviceId>(1 + pick(tablets_)), 1 + pick(60)}; }
  void fill(Replacement& instead) {
    ReplacementBody body;
    make(body, pick(static_cast<int>(std::variant_size_v<ReplacementBody>)));
    instead = Replacement{std::move(body)};
  }
  template <class T>
  void fill(std::optional<T>& o) {
    if (pick(2) == 0) fill(o.emplace());
  }
  template <class T>
  void fill(std::vector<T>& v) {
    v.resize(static_cast<std::size_t>(pick(4)));
    for (T& item : v) fill(item);
  }
  template <class T>
  requires requires(T& t, AnyBody& f) { T::fields(t, f); }
  void fill(T& t) { T::fields(t, *this); }

  std::mt19937& random_;
  int tablets_;
};

}  // namespace evening
