#include "storage/text/json_fields.h"

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
  if (!value.is_object()) return fail(key, "must be an object");
  Reader inner(value, below(key));
  std::string kind;
  inner("kind", kind);
  const auto known = engine::body_of_kind(kind);
  auto instead = known ? engine::replacement_of(*known) : std::nullopt;
  if (inner.wrong_.empty() && !instead) inner.fail("kind", "must be one that can be corrected");
  if (instead) {
    engine::ReplacementBody body = instead->body();
    std::visit([&](auto& of_kind) { inner("body", of_kind); }, body);
    to = engine::Replacement{std::move(body)};
  }
  wrong_ = inner.wrong_;
}

const json* Reader::find(const char* key) const {
  const auto found = from_.find(key);
  return found == from_.end() ? nullptr : &*found;
}

void Reader::fail(const std::string& key, const std::string& what) {
  if (wrong_.empty()) wrong_ = below(key) + ": " + what;
}

}  // namespace storage::json_fields
