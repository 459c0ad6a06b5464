#include "storage/sheets/sheet_words.h"

#include <algorithm>
#include <string>
#include <vector>

#include "storage/text/utf8.h"

namespace storage {
namespace {

struct Word {
  std::string_view text;
  Field field;
  bool weak = false;
};

// Common words of the trade, written without spaces and in the singular.
constexpr Word kWords[] = {
    {"yard", Field::Yard},
    {"apiary", Field::Yard},
    {"beeyard", Field::Yard},
    {"yardname", Field::Yard},
    {"apiaryname", Field::Yard},
    {"colmenar", Field::Yard},
    {"apiario", Field::Yard},
    {"site", Field::Yard, true},
    {"location", Field::Yard, true},
    {"colony", Field::Colony},
    {"hive", Field::Colony},
    {"colonyid", Field::Colony},
    {"hiveid", Field::Colony},
    {"colonyname", Field::Colony},
    {"hivename", Field::Colony},
    {"colonyno", Field::Colony},
    {"hiveno", Field::Colony},
    {"colonynr", Field::Colony},
    {"hivenr", Field::Colony},
    {"colonynumber", Field::Colony},
    {"hivenumber", Field::Colony},
    {"colmena", Field::Colony},
    {"colonia", Field::Colony},
    {"broodbox", Field::Boxes},
    {"box", Field::Boxes},
    {"brood", Field::Boxes, true},
    {"chamber", Field::Boxes},
    {"broodchamber", Field::Boxes},
    {"broodbody", Field::Boxes},
    {"hivebody", Field::Boxes},
    {"deep", Field::Boxes, true},
    {"super", Field::Supers},
    {"honeysuper", Field::Supers},
    {"superon", Field::Supers},
    {"superson", Field::Supers},
    {"honeysuperson", Field::Supers},
    {"x", Field::East},
    {"east", Field::East},
    {"y", Field::North},
    {"north", Field::North},
    {"order", Field::Order},
    {"position", Field::Order},
    {"walkorder", Field::Order},
    {"stop", Field::Order, true},
    {"lat", Field::Lat},
    {"latitude", Field::Lat},
    {"lon", Field::Lon},
    {"lng", Field::Lon},
    {"long", Field::Lon},
    {"longitude", Field::Lon},
    {"zone", Field::Zone},
    {"timezone", Field::Zone},
    {"note", Field::Note},
    {"remark", Field::Note, true},
    {"comment", Field::Note, true},
    {"nota", Field::Note, true},
    {"date", Field::Date},
    {"day", Field::Date, true},
    {"countdate", Field::Date},
    {"dateofcount", Field::Date},
    {"datecounted", Field::Date},
    {"sampledate", Field::Date},
    {"fecha", Field::Date},
    {"method", Field::Method},
    {"countmethod", Field::Method},
    {"samplemethod", Field::Method},
    {"test", Field::Method, true},
    {"mite", Field::Mites},
    {"mitecount", Field::Mites},
    {"mitescounted", Field::Mites},
    {"varroa", Field::Mites, true},
    {"acaro", Field::Mites},
    {"bee", Field::Bees},
    {"beecount", Field::Bees},
    {"beescounted", Field::Bees},
    {"samplesize", Field::Bees, true},
    {"abeja", Field::Bees},
    {"hour", Field::Hours},
    {"hr", Field::Hours},
    {"boardhour", Field::Hours},
    {"hoursonboard", Field::Hours},
    {"hora", Field::Hours},
    // German, Spanish and French, as keepers write them (from memory, not from a list).
    {"bienenstand", Field::Yard},
    {"stand", Field::Yard, true},
    {"standort", Field::Yard, true},
    {"rucher", Field::Yard},
    {"volk", Field::Colony},
    {"völker", Field::Colony},
    {"voelker", Field::Colony},
    {"bienenvolk", Field::Colony},
    {"bienenvölker", Field::Colony},
    {"volknr", Field::Colony},
    {"volknummer", Field::Colony},
    {"stocknummer", Field::Colony},
    {"stocknr", Field::Colony},
    {"colonie", Field::Colony},
    {"ruche", Field::Colony},
    {"nruche", Field::Colony},
    {"numéroderuche", Field::Colony},
    {"numeroderuche", Field::Colony},
    {"brutzarge", Field::Boxes},
    {"brutzargen", Field::Boxes},
    {"zarge", Field::Boxes, true},
    {"zargen", Field::Boxes, true},
    {"brutraum", Field::Boxes},
    {"cámaradecría", Field::Boxes},
    {"camaradecria", Field::Boxes},
    {"corpsdecouvain", Field::Boxes},
    {"corps", Field::Boxes, true},
    {"honigraum", Field::Supers},
    {"honigräume", Field::Supers},
    {"honigraeume", Field::Supers},
    {"alza", Field::Supers},
    {"alzamelaria", Field::Supers},
    {"alzasmelarias", Field::Supers},
    {"hausse", Field::Supers},
    {"reihenfolge", Field::Order},
    {"orden", Field::Order},
    {"ordre", Field::Order},
    {"breitengrad", Field::Lat},
    {"breite", Field::Lat, true},
    {"latitud", Field::Lat},
    {"längengrad", Field::Lon},
    {"laengengrad", Field::Lon},
    {"longitud", Field::Lon},
    {"zeitzone", Field::Zone},
    {"zonahoraria", Field::Zone},
    {"fuseauhoraire", Field::Zone},
    {"notiz", Field::Note},
    {"notizen", Field::Note},
    {"bemerkung", Field::Note, true},
    {"bemerkungen", Field::Note, true},
    {"anmerkung", Field::Note, true},
    {"observación", Field::Note, true},
    {"observaciones", Field::Note, true},
    {"remarque", Field::Note, true},
    {"datum", Field::Date},
    {"methode", Field::Method},
    {"método", Field::Method},
    {"metodo", Field::Method},
    {"méthode", Field::Method},
    {"milbe", Field::Mites},
    {"milben", Field::Mites},
    {"varroamilbe", Field::Mites},
    {"varroamilben", Field::Mites},
    {"ácaro", Field::Mites},
    {"acarien", Field::Mites},
    {"biene", Field::Bees},
    {"bienen", Field::Bees},
    {"abeille", Field::Bees},
    {"stunde", Field::Hours},
    {"stunden", Field::Hours},
    {"heure", Field::Hours},
    {"bruträume", Field::Boxes},
};

// "name" and the like mean the colony beside a yard, or the yard on a sheet of yards.
constexpr std::string_view kNameWords[] = {"name",   "id",     "number", "no",    "nr",
                                           "nombre", "nummer", "nom",    "numéro"};

// The days a board lay are no date: this plural is not what its singular is.
constexpr std::string_view kNoPlural[] = {"days"};

const Word* find_word(std::string_view text) {
  const auto* found = std::find_if(std::begin(kWords), std::end(kWords),
                                   [&](const Word& w) { return w.text == text; });
  return found == std::end(kWords) ? nullptr : found;
}

const Word* find_word_or_plural(const std::string& text) {
  if (const Word* word = find_word(text)) return word;
  if (std::find(std::begin(kNoPlural), std::end(kNoPlural), text) != std::end(kNoPlural))
    return nullptr;
  if (text.ends_with("ies"))
    if (const Word* word = find_word(text.substr(0, text.size() - 3) + "y")) return word;
  if (text.ends_with("es"))
    if (const Word* word = find_word(text.substr(0, text.size() - 2))) return word;
  return text.ends_with("s") ? find_word(text.substr(0, text.size() - 1)) : nullptr;
}

// A header as words; what stands in brackets is its unit.
struct Header {
  std::vector<std::string> words;
  std::string unit;

  [[nodiscard]] std::string joined() const {
    std::string out;
    for (const std::string& w : words) out += w;
    return out;
  }
};

bool is_word_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

Header split(std::string_view text) {
  Header h;
  bool inside = false;
  bool fresh = true;
  for (const char c : folded(text)) {
    if (c == '(' || c == '[') inside = true;
    if (c == '%') h.unit += '%';
    if (!is_word_char(c)) fresh = true;
    if (!is_word_char(c)) continue;
    if (inside) {
      h.unit += c;
      continue;
    }
    if (fresh) h.words.emplace_back();
    fresh = false;
    h.words.back() += c;
  }
  return h;
}

constexpr std::string_view kCountUnits[] = {"", "count", "n", "no", "number", "total"};

// Tenths of a millimetre in one unit of length; a foot is 304.8 mm exactly (1959 agreement).
std::optional<int> length_unit(std::string_view unit) {
  for (const std::string_view m : {"", "m", "metre", "metres", "meter", "meters"})
    if (unit == m) return 10'000;
  for (const std::string_view ft : {"ft", "feet", "foot"})
    if (unit == ft) return 3048;
  return unit == "cm" ? std::optional(100) : std::nullopt;
}

bool unit_fits(Field field, const std::string& unit) {
  switch (field) {
    case Field::East:
    case Field::North:
      return length_unit(unit).has_value();
    case Field::Mites:  // "mites (per 100 bees)" and "mites %" are no counts
    case Field::Bees:
    case Field::Boxes:
      return std::find(std::begin(kCountUnits), std::end(kCountUnits), unit) !=
             std::end(kCountUnits);
    case Field::Hours:
      return unit.empty() || unit == "h" || unit == "hr" || unit == "hrs" || unit == "hours";
    default:
      return unit.find('%') == std::string::npos;
  }
}

bool is_measured(Field f) {
  using enum Field;
  return f == East || f == North || f == Mites || f == Bees || f == Boxes || f == Hours;
}

}  // namespace

HeaderMeaning header_meaning(std::string_view text) {
  Header h = split(text);
  const Word* word = find_word_or_plural(h.joined());
  if (word == nullptr && h.words.size() > 1 && h.unit.empty()) {  // "x m"
    h.unit = h.words.back();
    h.words.pop_back();
    word = find_word_or_plural(h.joined());
    if (word && !is_measured(word->field)) word = nullptr;
  }
  if (word == nullptr || !unit_fits(word->field, h.unit)) return {};
  return {word->field, word->weak, length_unit(h.unit).value_or(10'000)};
}

bool is_name_header(std::string_view text) {
  const std::string joined = split(text).joined();
  return std::find(std::begin(kNameWords), std::end(kNameWords), joined) != std::end(kNameWords);
}

}  // namespace storage
