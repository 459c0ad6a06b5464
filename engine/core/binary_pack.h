// engine/core/binary_pack.h -- values as few bytes, and back, for what this very program wrote
// itself.
//
// Driven by the fields() lists. Whole numbers are zigzag varints (a small number is one byte); ids
// and texts are kept once in PackWords and named by their place there. No format to be kept for
// years: the journal's JSON is that. Unpacker never reads past its bytes; what cannot be read sets
// failed() and leaves values as they were.
#pragma once
#include <cstring>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>
#include <utility>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/units.h"

namespace engine {

struct PackWords {
  std::vector<UuidBytes> ids;
  std::vector<SharedText> texts;
};

template <class T, class Visitor>
concept ListsFields = requires(T& t, Visitor& v) {
  T::fields(t, v);
};

// What lists its members through members(value, f), as engine/farm/packed_state.cpp does.
template <class T>
concept HasMembers = requires(T& t) {
  members(t, [](auto&...) {});
};

class Packer;
class Unpacker;
// What has functions of its own for it, as engine/events/log.cpp has for corrections.
template <class T>
concept PacksItself = requires(const T& value, T& to, Packer& into, Unpacker& from) {
  pack_itself(value, into);
  unpack_itself(from, to);
};

class Packer {
 public:
  // `words` grows; it must outlive the packer.
  explicit Packer(PackWords& words) : words_(words) {}

  template <class T>
  void operator()(const char*, const T& field) {
    add(field);
  }
  template <class... Ts>
  void all(const Ts&... values) {
    (add(values), ...);
  }

  template <class T>
  requires std::is_integral_v<T> || std::is_enum_v<T>
  void add(T value) {
    const auto wide = static_cast<std::int64_t>(value);
    number((static_cast<std::uint64_t>(wide) << 1U) ^ static_cast<std::uint64_t>(wide >> 63));
  }
  void add(const std::string& text) {
    const auto [at, fresh] = texts_.try_emplace(text, words_.texts.size());
    if (fresh) words_.texts.push_back(text);
    number(at->second);
  }
  void add(const SharedText& text) { add(text.str()); }
  template <class Tag>
  void add(const Id<Tag>& id) {
    const auto [at, fresh] = ids_.try_emplace(id.bytes, words_.ids.size());
    if (fresh) words_.ids.push_back(id.bytes);
    number(at->second);
  }
  template <class T>
  void add(const std::optional<T>& maybe) {
    add(maybe.has_value());
    if (maybe) add(*maybe);
  }
  template <class T>
  void add(const std::vector<T>& list) {
    each(list);
  }
  template <class T>
  void add(const std::set<T>& items) {
    each(items);
  }
  template <class K, class V>
  void add(const std::map<K, V>& map) {
    each(map);
  }
  template <class A, class B>
  void add(const std::pair<A, B>& p) {
    all(p.first, p.second);
  }
  template <class Rep, class Period>
  void add(std::chrono::duration<Rep, Period> d) {
    add(static_cast<std::int64_t>(d.count()));
  }
  void add(Date d) {
    all(static_cast<int>(d.year()), static_cast<unsigned>(d.month()),
        static_cast<unsigned>(d.day()));
  }
  void add(Mass m) { add(m.mg); }
  void add(Temperature t) { add(t.tenths_c); }
  void add(Spot s) { all(s.x_cm, s.y_cm); }
  void add(Place p) { all(p.lat_udeg, p.lon_udeg); }
  void add(const Stamp& s) { all(s.at.time_since_epoch(), s.zone, s.boot, s.since_boot); }
  template <class T>
  requires ListsFields<const T, Packer>
  void add(const T& listed) { T::fields(listed, *this); }

  template <PacksItself T>
  void add(const T& value) {
    pack_itself(value, *this);
  }
  template <class T>
  requires HasMembers<const T>
  void add(const T& value) {
    members(value, [this](const auto&... member) { this->all(member...); });
  }

  template <class List>
  void each(const List& list) {
    add(list.size());
    for (const auto& item : list) add(item);
  }

  [[nodiscard]] const std::string& bytes() const { return bytes_; }
  [[nodiscard]] std::string take() { return std::move(bytes_); }

 private:
  struct HashId {
    std::size_t operator()(const UuidBytes& id) const {
      std::uint64_t high = 0, low = 0;
      std::memcpy(&high, id.data(), 8);
      std::memcpy(&low, id.data() + 8, 8);
      return static_cast<std::size_t>(high * 0x9E3779B97F4A7C15ULL ^ low);
    }
  };

  void number(std::uint64_t n) {
    for (; n >= 128; n >>= 7U) bytes_ += static_cast<char>(n | 128U);
    bytes_ += static_cast<char>(n);
  }

  PackWords& words_;
  std::string bytes_;
  std::unordered_map<UuidBytes, std::size_t, HashId> ids_;
  std::unordered_map<std::string, std::size_t> texts_;
};

class Unpacker {
 public:
  Unpacker(std::string_view bytes, const PackWords& words) : bytes_(bytes), words_(words) {}

  template <class T>
  void operator()(const char*, T& field) {
    get(field);
  }
  template <class... Ts>
  void all(Ts&... values) {
    (get(values), ...);
  }

  template <class T>
  requires std::is_integral_v<T> || std::is_enum_v<T>
  void get(T& value) {
    const std::uint64_t n = number();
    value = static_cast<T>(static_cast<std::int64_t>(n >> 1U) ^ -static_cast<std::int64_t>(n & 1U));
  }
  void get(SharedText& text) {
    const std::uint64_t at = number();
    if (at < words_.texts.size())
      text = words_.texts[at];
    else
      failed_ = true;
  }
  void get(std::string& text) {
    const std::uint64_t at = number();
    if (at < words_.texts.size())
      text = words_.texts[at].str();
    else
      failed_ = true;
  }
  template <class Tag>
  void get(Id<Tag>& id) {
    const std::uint64_t at = number();
    if (at < words_.ids.size())
      id.bytes = words_.ids[at];
    else
      failed_ = true;
  }
  template <class T>
  void get(std::optional<T>& maybe) {
    maybe.reset();
    if (flag()) get(maybe.emplace());
  }
  template <class T>
  void get(std::vector<T>& list) {
    list.clear();
    const std::size_t size = count();
    list.reserve(size);
    for (std::size_t i = 0; i < size && !failed_; ++i) get(list.emplace_back());
  }
  template <class T>
  void get(std::set<T>& items) {
    items.clear();
    for (std::size_t i = count(); i > 0 && !failed_; --i) {
      T item{};
      get(item);
      items.insert(items.end(), std::move(item));
    }
  }
  template <class K, class V>
  void get(std::map<K, V>& map) {
    map.clear();
    for (std::size_t i = count(); i > 0 && !failed_; --i) {
      std::pair<K, V> item{};
      get(item);
      map.insert(map.end(), std::move(item));
    }
  }
  template <class A, class B>
  void get(std::pair<A, B>& p) {
    all(p.first, p.second);
  }
  template <class Rep, class Period>
  void get(std::chrono::duration<Rep, Period>& d) {
    std::int64_t n = 0;
    get(n);
    d = std::chrono::duration<Rep, Period>{static_cast<Rep>(n)};
  }
  void get(Date& d) {
    int year = 0;
    unsigned month = 0, day = 0;
    all(year, month, day);
    d = std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day};
  }
  void get(Mass& m) { get(m.mg); }
  void get(Temperature& t) { get(t.tenths_c); }
  void get(Spot& s) { all(s.x_cm, s.y_cm); }
  void get(Place& p) { all(p.lat_udeg, p.lon_udeg); }
  void get(Stamp& s) {
    Ms at{};
    all(at, s.zone, s.boot, s.since_boot);
    s.at = Utc{at};
  }
  template <class T>
  requires ListsFields<T, Unpacker>
  void get(T& listed) { T::fields(listed, *this); }
  template <PacksItself T>
  void get(T& value) {
    unpack_itself(*this, value);
  }
  template <class T>
  requires HasMembers<T>
  void get(T& value) {
    members(value, [this](auto&... member) { this->all(member...); });
  }

  // How many items follow; no more than there are bytes, as each needs one.
  [[nodiscard]] std::size_t count() {
    std::size_t n = 0;
    get(n);
    if (n <= bytes_.size()) return n;
    failed_ = true;
    return 0;
  }
  [[nodiscard]] bool flag() {
    bool yes = false;
    get(yes);
    return yes;
  }
  // What was read cannot be: for who knows more of it than its bytes say.
  void fail() { failed_ = true; }
  [[nodiscard]] bool failed() const { return failed_; }
  [[nodiscard]] bool at_end() const { return bytes_.empty(); }

 private:
  std::uint64_t number() {
    std::uint64_t n = 0;
    for (unsigned shift = 0; shift < 64 && !bytes_.empty(); shift += 7) {
      const auto byte = static_cast<std::uint8_t>(bytes_.front());
      bytes_.remove_prefix(1);
      n |= static_cast<std::uint64_t>(byte & 127U) << shift;
      if (byte < 128) return n;
    }
    failed_ = true;
    return 0;
  }

  std::string_view bytes_;
  const PackWords& words_;
  bool failed_ = false;
};

}  // namespace engine
