// storage/text/json_fields.h -- the one reader and writer of JSON objects. Private to storage.
//
// A value is written and read by its type. Entries and profiles are read through the fields() lists
// of the engine's structs, so that each list stands in one place; a question of a command is read
// key by key. Whatever is read, the first field that is wrong is remembered by its full name.
#pragma once
#include <chrono>
#include <initializer_list>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/names.h"
#include "engine/core/units.h"

namespace engine {
class Replacement;
}

namespace storage::json_fields {

using nlohmann::json;

struct Writer;

template <class T>
concept HasFields = requires(const T& t, Writer& w) {
  T::fields(t, w);
};

template <class Tag>
json put(const engine::Id<Tag>& id) {
  return engine::text(id);
}
inline json put(const std::string& text) { return text; }
inline json put(bool yes) { return yes; }
inline json put(int number) { return number; }
inline json put(std::int64_t number) { return number; }
inline json put(engine::Mass mass) { return mass.mg; }
inline json put(engine::Temperature t) { return t.tenths_c; }
inline json put(engine::Date date) { return engine::iso_date(date); }
inline json put(engine::Spot s) { return {{"x_cm", s.x_cm}, {"y_cm", s.y_cm}}; }
inline json put(engine::Place p) { return {{"lat_udeg", p.lat_udeg}, {"lon_udeg", p.lon_udeg}}; }
template <class Unit>
json put(std::chrono::duration<std::int64_t, Unit> length) {
  return length.count();
}
template <engine::Named E>
json put(E value) {
  return engine::name(value);
}
template <HasFields T>
json put(const T& thing);
json put(const engine::Replacement& instead);
template <class T>
json put(const std::vector<T>& list) {
  json out = json::array();
  for (const T& item : list) out.push_back(put(item));
  return out;
}

struct Writer {
  json out = json::object();

  template <class T>
  void operator()(const char* key, const T& value) {
    out[key] = put(value);
  }
  template <class T>
  void operator()(const char* key, const std::optional<T>& value) {
    if (value) out[key] = put(*value);
  }
};

template <HasFields T>
json put(const T& thing) {
  Writer writer;
  T::fields(thing, writer);
  return std::move(writer.out);
}

// Reads back into `to`. The answer is what `from` would have to be, or nullptr when it was taken.
template <class Tag>
const char* take(const json& from, engine::Id<Tag>& to) {
  if (!from.is_string()) return "an id in text";
  const auto bytes = engine::uuid_from_text(from.get_ref<const std::string&>());
  if (bytes) to.bytes = *bytes;
  return bytes ? nullptr : "an id (8-4-4-4-12 hexadecimal digits)";
}
const char* take(const json& from, std::string& to);
const char* take(const json& from, bool& to);
const char* take(const json& from, int& to);
const char* take(const json& from, double& to);  // a finite number
const char* take(const json& from, std::int64_t& to);
const char* take(const json& from, engine::Mass& to);
const char* take(const json& from, engine::Temperature& to);
const char* take(const json& from, engine::Date& to);
const char* take(const json& from, engine::Spot& to);
const char* take(const json& from, engine::Place& to);

// What an entry may say is bounded so that sums of a million of them stay far from overflow,
// however strange the tablet was that wrote it.
constexpr std::int64_t kMostMg = 1'000'000'000'000;      // a thousand tonnes
constexpr std::chrono::hours kMostLength{24L * 36'525};  // a century
constexpr int kFarthestCm = 10'000'000;                  // 100 km from a yard's own origin
// A whole number in a question stays below this, so that its sums and products stay in 64 bits.
constexpr int kMostAsked = 1'000'000'000;

template <class Unit>
const char* take(const json& from, std::chrono::duration<std::int64_t, Unit>& to) {
  using Length = std::chrono::duration<std::int64_t, Unit>;
  constexpr std::int64_t kMost = std::chrono::duration_cast<Length>(kMostLength).count();
  std::int64_t count = 0;
  if (const char* wrong = take(from, count)) return wrong;
  if (count < -kMost || count > kMost) return "a length of at most a century";
  to = Length{count};
  return nullptr;
}
template <engine::Named E>
const char* take(const json& from, E& to) {
  if (!from.is_string()) return "a word";
  const auto value = engine::from_name<E>(from.get_ref<const std::string&>());
  if (value) to = *value;
  return value ? nullptr : "one of its known words";
}

// Reads fields one after the other until one is wrong; `wrong` then says "a.b: must be ...".
class Reader {
 public:
  // `path` names the object, empty: the file itself.
  Reader(const json& from, std::string path)
      : from_(from), path_(std::move(path)), wrong_(own_wrong_) {}
  // `wrong` is shared by all objects of one text, and outlives the reader.
  Reader(const json& from, std::string path, std::string& wrong)
      : from_(from), path_(std::move(path)), wrong_(wrong) {}
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;

  // A field that has to be there.
  template <class T>
  void operator()(const char* key, T& to) {
    if (const json* value = need(key)) read(key, *value, to);
  }
  // A field that may be missing: nullopt then.
  template <class T>
  void operator()(const char* key, std::optional<T>& to) {
    to.reset();
    if (const json* value = find(key)) read(key, *value, to.emplace());
  }
  // A field that may be missing: what is not given keeps its value.
  template <class T>
  void maybe(const char* key, T& to) {
    if (const json* value = find(key)) read(key, *value, to);
  }
  // The same, and a number outside of the range is refused.
  void within(const char* key, double& to, double low, double high);
  void within(const char* key, int& to, int low, int high);
  // A whole number that has to be there, within kMostAsked.
  void whole(const char* key, int& to);

  // Whether this is an object that has no other keys than these; else it is wrong.
  bool known(std::initializer_list<std::string_view> keys);
  [[nodiscard]] const json* find(const char* key) const;  // nullptr: not there
  const json* need(const char* key);                      // the same, and then it is wrong

  // One value that belongs to `field`, by its full name. False: it is wrong.
  bool take(const std::string& field, const json& value, double& to);
  bool take(const std::string& field, const json& value, int& to);  // within kMostAsked

  // Remembers what is wrong, unless something was wrong before. Always false.
  bool fail(const std::string& field, const std::string& what);
  [[nodiscard]] std::string called(const std::string& key) const {
    return path_.empty() ? key : path_ + "." + key;
  }
  [[nodiscard]] bool fine() const { return wrong_.empty(); }
  [[nodiscard]] std::string& wrong() { return wrong_; }

 private:
  template <class T>
  void read(const std::string& key, const json& value, T& to) {
    if (!wrong_.empty()) return;
    if (const char* must = json_fields::take(value, to))
      fail(called(key), std::string("must be ") + must);
  }
  template <HasFields T>
  void read(const std::string& key, const json& value, T& to) {
    if (!wrong_.empty()) return;
    if (!value.is_object()) return void(fail(called(key), "must be an object"));
    Reader inner(value, called(key), wrong_);
    T::fields(to, inner);
  }
  void read(const std::string& key, const json& value, engine::Replacement& to);
  template <class T>
  void read(const std::string& key, const json& value, std::vector<T>& to) {
    if (!wrong_.empty()) return;
    if (!value.is_array()) return void(fail(called(key), "must be a list"));
    to.assign(value.size(), T{});
    for (std::size_t i = 0; i < to.size(); ++i)
      read(key + "[" + std::to_string(i) + "]", value[i], to[i]);
  }

  const json& from_;
  std::string path_;
  std::string own_wrong_;
  std::string& wrong_;
};

}  // namespace storage::json_fields
