#include "storage/store/data_dictionary.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "engine/events/event.h"
#include "storage/store/dictionary_words.h"

namespace storage {
namespace {

struct TypeName {
  std::string one, many;  // "id", "ids"
  std::string unit;
};

template <class T>
struct Tagged {};  // carries a type to an overload

// The objects that fields hold, by the names that the dictionary gives them: one that is not here
// does not compile.
const char* part_name(Tagged<engine::LabelRules>) { return "label rules"; }
const char* part_name(Tagged<engine::LabelLimits>) { return "label limits"; }
const char* part_name(Tagged<engine::Conditions>) { return "weather"; }
const char* part_name(Tagged<engine::Pace>) { return "pace"; }
const char* part_name(Tagged<engine::Thresholds>) { return "thresholds"; }
const char* part_name(Tagged<engine::PlannedVisit>) { return "planned visit"; }
const char* part_name(Tagged<engine::CourseDates>) { return "course dates"; }
const char* part_name(Tagged<engine::RoundsAsked>) { return "rounds asked"; }
const char* part_name(Tagged<engine::EntryRef>) { return "entry reference"; }

template <class Tag>
TypeName type_name(Tagged<engine::Id<Tag>>) {
  return {"id", "ids", ""};
}
TypeName type_name(Tagged<std::string>) { return {"text", "texts", ""}; }
TypeName type_name(Tagged<bool>) { return {"true or false", "", ""}; }
TypeName type_name(Tagged<int>) { return {"whole number", "whole numbers", ""}; }
TypeName type_name(Tagged<std::int64_t>) { return {"whole number", "whole numbers", ""}; }
TypeName type_name(Tagged<engine::Mass>) { return {"whole number", "whole numbers", "mg"}; }
TypeName type_name(Tagged<engine::Temperature>) {
  return {"whole number", "whole numbers", "tenths of a °C"};
}
TypeName type_name(Tagged<engine::Seconds>) { return {"whole number", "whole numbers", "s"}; }
TypeName type_name(Tagged<engine::Date>) { return {"day (YYYY-MM-DD)", "days (YYYY-MM-DD)", ""}; }
TypeName type_name(Tagged<engine::Spot>) { return {"object: x_cm, y_cm", "", "cm east, cm north"}; }
TypeName type_name(Tagged<engine::Place>) {
  return {"object: lat_udeg, lon_udeg", "", "millionths of a degree north, east (WGS 84)"};
}
TypeName type_name(Tagged<engine::Replacement>) { return {"object: kind, body", "", ""}; }
template <engine::Named E>
TypeName type_name(Tagged<E>) {
  std::string words;
  for (const char* word : enum_names(E{})) words += (words.empty() ? "" : ", ") + std::string(word);
  return {"one of: " + words, "list of: " + words, ""};
}
template <class T>
requires requires(Tagged<T> part) { part_name(part); }
TypeName type_name(Tagged<T> part) {
  return {fmt::format("object: {}", part_name(part)), fmt::format("objects: {}", part_name(part)),
          ""};
}
template <class T>
TypeName type_name(Tagged<std::vector<T>>) {
  const TypeName item = type_name(Tagged<T>{});
  const bool said = item.many.starts_with("list of");
  return {said ? item.many : "list of " + item.many, "", item.unit};
}

// What fields() calls with each name and value.
struct FieldLister {
  DictionaryEntry& into;

  template <class T>
  void operator()(const char* name, const T&) {
    add<T>(name, false);
  }
  template <class T>
  void operator()(const char* name, const std::optional<T>&) {
    add<T>(name, true);
  }
  template <class T>
  void add(const char* name, bool may_be_missing) {
    const TypeName type = type_name(Tagged<T>{});
    FieldWords words = field_words(into.name, name);
    into.fields.push_back({name, type.one, type.unit.empty() ? words.unit : type.unit,
                           std::move(words.meaning), may_be_missing});
  }
};

template <class T>
DictionaryEntry entry_of(const std::string& name) {
  DictionaryEntry entry{name, kind_words(name), {}};
  T thing{};
  T::fields(thing, FieldLister{entry});
  return entry;
}

template <std::size_t... Place>
std::vector<DictionaryEntry> all_kinds(std::index_sequence<Place...>) {
  return {entry_of<std::variant_alternative_t<Place, engine::AnyKind>>(
      std::variant_alternative_t<Place, engine::AnyKind>::kKind)...};
}

template <class... Part>
std::vector<DictionaryEntry> all_parts() {
  return {entry_of<Part>(part_name(Tagged<Part>{}))...};
}

void write_table(std::string& out, const DictionaryEntry& entry) {
  out += fmt::format("### {}\n\n{}\n\n", entry.name, entry.meaning);
  out += "| field | type | unit | meaning |\n| --- | --- | --- | --- |\n";
  for (const FieldEntry& f : entry.fields)
    out += fmt::format("| `{}`{} | {} | {} | {} |\n", f.name, f.may_be_missing ? " *" : "", f.type,
                       f.unit, f.meaning);
  out += '\n';
}

constexpr std::string_view kHead = R"(## Data dictionary

An entry is an object with these fields: `device`, the id of the tablet that wrote it; `seq`, its number on that tablet
(1, 2, 3 without gaps); `at_utc_ms`, the wall clock, and `since_boot_ms`, the clock since the machine was started, both
in milliseconds; `boot_id`, which start that was; `zone_offset_min`, local time less UTC, in minutes; `kind`, what
happened; and `body`, whose fields depend on the kind and stand below. `*`: the field may be missing, and then nobody
said it. An id is a UUID (RFC 9562). A list is in the order that is said. Kinds and fields are added in later versions
and never renamed or removed.

The treatments of an evening are the `vaporizer_set` of that day whose entry no later `entry_struck` or
`entry_corrected` names, unless a `strike_taken_back` names that one in turn; names of yards and colonies come from
`yard_added`, `yard_changed`, `colony_added` and `colony_changed`. What a walk goes by (product, basis of the dose) stands
in its `walk_opened`; when the cloth came and went is in `colony_covered` and `colony_uncovered`.

)";

}  // namespace

DataDictionary data_dictionary() {
  return {all_kinds(std::make_index_sequence<std::variant_size_v<engine::AnyKind>>{}),
          all_parts<engine::EntryRef, engine::LabelRules, engine::LabelLimits, engine::Conditions,
                    engine::PlannedVisit, engine::CourseDates, engine::RoundsAsked, engine::Pace,
                    engine::Thresholds>()};
}

std::string dictionary_text() {
  const DataDictionary all = data_dictionary();
  std::string out(kHead);
  for (const DictionaryEntry& kind : all.kinds) write_table(out, kind);
  out += "## Objects within the fields\n\n";
  for (const DictionaryEntry& part : all.parts) write_table(out, part);
  out.pop_back();  // one line end at the end
  return out;
}

}  // namespace storage
