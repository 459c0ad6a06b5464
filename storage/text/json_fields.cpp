#include "storage/text/json_fields.h"

#include <algorithm>
#include <cmath>

#include "engine/events/event.h"

namespace storage::json_fields {
namespace {

// Two whole numbers of an object, both needed.
const char* take_pair(const json& from, const char* a, int& to_a, const char* b, int& to_b,
                      const char* must) {
  if (!from.is_object() || !from.contains(a) || !from.contains(b)) return must;
  const bool taken = !take(from[a], to_a) && !take(from[b], to_b);
  return taken ? nullptr : must;
}

}  // namespace

const char* take(const json& from, std::string& to) {
  if (!from.is_string()) return "text";
  to = from.get<std::string>();
  return nullptr;
}

const char* take(const json& from, bool& to) {
  if (!from.is_boolean()) return "true or false";
  to = from.get<bool>();
  return nullptr;
}

const char* take(const json& from, std::int64_t& to) {
  constexpr auto kMost = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
  if (!from.is_number_integer()) return "a whole number";
  if (from.is_number_unsigned() && from.get<std::uint64_t>() > kMost)
    return "a smaller whole number";
  to = from.get<std::int64_t>();
  return nullptr;
}

const char* take(const json& from, int& to) {
  std::int64_t wide = 0;
  if (const char* wrong = take(from, wide)) return wrong;
  if (wide < std::numeric_limits<int>::min() || wide > std::numeric_limits<int>::max())
    return "a smaller whole number";
  to = static_cast<int>(wide);
  return nullptr;
}

const char* take(const json& from, double& to) {
  if (!from.is_number()) return "a number";
  to = from.get<double>();
  return std::isfinite(to) ? nullptr : "finite";
}

const char* take(const json& from, engine::Mass& to) {
  if (take(from, to.mg)) return "a whole number of milligrams";
  return to.mg < -kMostMg || to.mg > kMostMg ? "at most a thousand tonnes, in milligrams" : nullptr;
}

const char* take(const json& from, engine::Temperature& to) {
  return take(from, to.tenths_c) ? "a whole number of tenths of a degree" : nullptr;
}

const char* take(const json& from, engine::Date& to) {
  constexpr const char* kMust = "a day such as 2026-08-14";
  if (!from.is_string()) return kMust;
  const auto date = engine::date_from_iso(from.get_ref<const std::string&>());
  if (date) to = *date;
  return date ? nullptr : kMust;
}

const char* take(const json& from, engine::Spot& to) {
  constexpr const char* kMust = "whole numbers x_cm and y_cm, each within 100 km";
  if (const char* wrong = take_pair(from, "x_cm", to.x_cm, "y_cm", to.y_cm, kMust)) return wrong;
  const auto near = [](int cm) { return cm >= -kFarthestCm && cm <= kFarthestCm; };
  return near(to.x_cm) && near(to.y_cm) ? nullptr : kMust;
}

const char* take(const json& from, engine::Place& to) {
  return take_pair(from, "lat_udeg", to.lat_udeg, "lon_udeg", to.lon_udeg,
                   "whole numbers lat_udeg and lon_udeg");
}

json put(const engine::Replacement& instead) {
  return std::visit(
      []<class Kind>(const Kind& body) {
        return json{{"kind", Kind::kKind}, {"body", put(body)}};
      },
      instead.body());
}

// An object with the kind's name and its body, as the entry itself would have them.
void Reader::read(const std::string& key, const json& value, engine::Replacement& to) {
  if (!wrong_.empty()) return;
  if (!value.is_object()) return void(fail(called(key), "must be an object"));
  Reader inner(value, called(key), wrong_);
  std::string kind;
  inner("kind", kind);
  const auto known = engine::body_of_kind(kind);
  auto instead = known ? engine::replacement_of(*known) : std::nullopt;
  if (inner.fine() && !instead)
    inner.fail(inner.called("kind"), "must be one that can be corrected");
  if (instead) {
    engine::ReplacementBody body = instead->body();
    std::visit([&](auto& of_kind) { inner("body", of_kind); }, body);
    to = engine::Replacement{std::move(body)};
  }
}

const json* Reader::find(const char* key) const {
  const auto found = from_.find(key);
  return found == from_.end() ? nullptr : &*found;
}

const json* Reader::need(const char* key) {
  const json* value = find(key);
  if (value == nullptr) fail(called(key), "is missing");
  return value;
}

bool Reader::known(std::initializer_list<std::string_view> keys) {
  if (!from_.is_object()) return fail(path_.empty() ? "the file" : path_, "must be an object");
  for (const auto& [key, value] : from_.items())
    if (std::find(keys.begin(), keys.end(), key) == keys.end())
      return fail(called(key), "is not a known field");
  return true;
}

void Reader::within(const char* key, double& to, double low, double high) {
  const json* value = find(key);
  if (value == nullptr || !take(called(key), *value, to) || (to >= low && to <= high)) return;
  const auto words = [](double n) { return json(n).dump(); };
  fail(called(key), high < 1e300 ? "must be from " + words(low) + " to " + words(high)
                                 : "must be at least " + words(low));
}

void Reader::within(const char* key, int& to, int low, int high) {
  const json* value = find(key);
  if (value == nullptr || !take(called(key), *value, to) || (to >= low && to <= high)) return;
  fail(called(key), "must be from " + std::to_string(low) + " to " + std::to_string(high));
}

void Reader::whole(const char* key, int& to) {
  if (const json* value = need(key)) take(called(key), *value, to);
}

bool Reader::take(const std::string& field, const json& value, double& to) {
  const char* must = json_fields::take(value, to);
  return must == nullptr || fail(field, std::string("must be ") + must);
}

bool Reader::take(const std::string& field, const json& value, int& to) {
  if (const char* must = json_fields::take(value, to))
    return fail(field, std::string("must be ") + must);
  return (to >= -kMostAsked && to <= kMostAsked) || fail(field, "must be a smaller whole number");
}

bool Reader::fail(const std::string& field, const std::string& what) {
  if (wrong_.empty()) wrong_ = field + ": " + what;
  return false;
}

}  // namespace storage::json_fields
