#include "storage/sheets/cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "storage/text/utf8.h"

namespace storage {
namespace {

using engine::Date;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::int64_t power_of_ten(int n) {
  std::int64_t p = 1;
  while (n-- > 0) p *= 10;
  return p;
}

// Digits only, at most `most` of them.
std::optional<std::int64_t> digits(std::string_view text, std::size_t most) {
  if (text.empty() || text.size() > most || !std::all_of(text.begin(), text.end(), is_digit))
    return std::nullopt;
  std::int64_t n = 0;
  for (const char c : text) n = n * 10 + (c - '0');
  return n;
}

// The digits behind the mark as a whole number of 10^-decimals.
std::optional<std::int64_t> fraction(std::string_view text, int decimals) {
  if (!std::all_of(text.begin(), text.end(), is_digit)) return std::nullopt;
  std::int64_t n = 0;
  for (int i = 0; i < decimals; ++i) {
    const auto at = static_cast<std::size_t>(i);
    n = n * 10 + (at < text.size() ? text[at] - '0' : 0);
  }
  const auto next = static_cast<std::size_t>(decimals);
  return n + (next < text.size() && text[next] >= '5' ? 1 : 0);
}

struct ThreeParts {
  std::array<std::string_view, 3> parts;
  char mark = 0;
};

// "14/08/2026": three runs of digits between two equal marks.
std::optional<ThreeParts> three_parts(std::string_view text) {
  const auto first = text.find_first_of("/.-");
  if (first == std::string_view::npos) return std::nullopt;
  const auto second = text.find(text[first], first + 1);
  if (second == std::string_view::npos) return std::nullopt;
  const ThreeParts t{
      {text.substr(0, first), text.substr(first + 1, second - first - 1), text.substr(second + 1)},
      text[first]};
  for (const auto part : t.parts)
    if (!digits(part, 4)) return std::nullopt;
  return t;
}

int number(std::string_view part) { return static_cast<int>(digits(part, 4).value_or(0)); }

std::optional<Date> day_of(int year, int month, int day) {
  const Date d{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
               std::chrono::day{static_cast<unsigned>(day)}};
  return d.ok() && year >= 1900 ? std::optional(d) : std::nullopt;
}

int full_year(std::string_view part) {
  return part.size() == 2 ? 2000 + number(part) : number(part);
}

// Year last, between slashes or dashes: the kind whose order is not sure.
bool year_is_last(const ThreeParts& t) {
  return t.mark != '.' && t.parts[0].size() <= 2 && t.parts[1].size() <= 2 &&
         (t.parts[2].size() == 4 || t.parts[2].size() == 2);
}

// "2026-08-14 00:00:00" and "2026-08-14T..." lose their time.
std::string_view without_time(std::string_view text) {
  return text.substr(0, text.find_first_of(" T"));
}

constexpr const char* kWriteIso = "write days as 2026-08-14";

DateCell no_date(std::string_view text) {
  return {{}, fmt::format("\"{}\" is no day of the calendar; {}", text.substr(0, 40), kWriteIso)};
}

DateCell in_order(const ThreeParts& t, std::string_view text, DateOrder order) {
  const int a = number(t.parts[0]), b = number(t.parts[1]), year = full_year(t.parts[2]);
  const bool only_day_first = a > 12 || a == b, only_month_first = b > 12;
  const bool sure = only_day_first || only_month_first;
  if (!sure && (order == DateOrder::Unknown || order == DateOrder::Mixed))
    return {{},
            fmt::format("\"{}\" may be day/month or month/day{}; {}", text,
                        order == DateOrder::Mixed ? " and this file has both" : "", kWriteIso)};
  const bool day_first = sure ? only_day_first : order == DateOrder::DayFirst;
  const auto date = day_first ? day_of(year, b, a) : day_of(year, a, b);
  return date ? DateCell{date, {}} : no_date(text);
}

constexpr std::array<std::pair<std::string_view, engine::CountMethod>, 42> kMethods = {{
    {"alcohol wash", engine::CountMethod::AlcoholWash},
    {"alcohol", engine::CountMethod::AlcoholWash},
    {"ethanol wash", engine::CountMethod::AlcoholWash},
    {"wash", engine::CountMethod::AlcoholWash},
    {"mite wash", engine::CountMethod::AlcoholWash},
    {"aw", engine::CountMethod::AlcoholWash},
    {"lavado", engine::CountMethod::AlcoholWash},
    {"lavado con alcohol", engine::CountMethod::AlcoholWash},
    {"sugar roll", engine::CountMethod::SugarRoll},
    {"sugar", engine::CountMethod::SugarRoll},
    {"sugar shake", engine::CountMethod::SugarRoll},
    {"powdered sugar", engine::CountMethod::SugarRoll},
    {"roll", engine::CountMethod::SugarRoll},
    {"sr", engine::CountMethod::SugarRoll},
    {"azucar", engine::CountMethod::SugarRoll},
    {"az\xc3\xba"
     "car",
     engine::CountMethod::SugarRoll},
    {"sticky board", engine::CountMethod::StickyBoard},
    {"stickyboard", engine::CountMethod::StickyBoard},
    {"board", engine::CountMethod::StickyBoard},
    {"bottom board", engine::CountMethod::StickyBoard},
    {"drop", engine::CountMethod::StickyBoard},
    {"mite drop", engine::CountMethod::StickyBoard},
    {"natural drop", engine::CountMethod::StickyBoard},
    {"sb", engine::CountMethod::StickyBoard},
    {"alcoholwash", engine::CountMethod::AlcoholWash},
    {"sugarroll", engine::CountMethod::SugarRoll},
    {"puderzucker", engine::CountMethod::SugarRoll},
    {"puderzuckermethode", engine::CountMethod::SugarRoll},
    {"sucre glace", engine::CountMethod::SugarRoll},
    {"azúcar glas", engine::CountMethod::SugarRoll},
    {"auswaschung", engine::CountMethod::AlcoholWash},
    {"alkoholwaschung", engine::CountMethod::AlcoholWash},
    {"auswaschen", engine::CountMethod::AlcoholWash},
    {"lavage à l'alcool", engine::CountMethod::AlcoholWash},
    {"lavage alcool", engine::CountMethod::AlcoholWash},
    {"windel", engine::CountMethod::StickyBoard},
    {"bodeneinlage", engine::CountMethod::StickyBoard},
    {"gemülldiagnose", engine::CountMethod::StickyBoard},
    {"lange", engine::CountMethod::StickyBoard},
    {"lange graissé", engine::CountMethod::StickyBoard},
    {"bandeja", engine::CountMethod::StickyBoard},
    {"other", engine::CountMethod::Other},
}};

}  // namespace

std::optional<std::int64_t> fixed(std::string_view text, int decimals, char mark) {
  const bool minus = text.starts_with('-');
  if (minus || text.starts_with('+')) text.remove_prefix(1);
  const auto at = text.find(mark);
  const auto before = digits(text.substr(0, at), 9);
  if (!before) return std::nullopt;
  std::int64_t value = *before * power_of_ten(decimals);
  if (at != std::string_view::npos) {
    const auto behind = text.substr(at + 1);
    const auto part =
        behind.empty() || behind.size() > 20 ? std::nullopt : fraction(behind, decimals);
    if (!part) return std::nullopt;
    value += *part;
  }
  return minus ? -value : value;
}

std::optional<int> whole(std::string_view text, char mark) {
  const auto at = text.find(mark);
  if (at != std::string_view::npos) {
    const std::string_view behind = text.substr(at + 1);
    if (behind != "0" && behind != "00") return std::nullopt;
  }
  const auto value = fixed(text, 0, mark);
  return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
}

std::optional<bool> yes_no(std::string_view text) {
  const std::string word = folded(text);
  for (const std::string_view yes :
       {"yes", "y", "true", "x", "on", "si", "s\xc3\xad", "ja", "oui", "\xe2\x9c\x93"})
    if (word == yes) return true;
  for (const std::string_view no : {"no", "n", "false", "off", "none", "nein", "non", "-"})
    if (word == no) return false;
  const auto supers = whole(word, '.');
  if (!supers || *supers < 0 || *supers > 20) return std::nullopt;
  return *supers > 0;
}

std::optional<engine::CountMethod> count_method(std::string_view text) {
  std::string word = folded(text);
  std::replace(word.begin(), word.end(), '_', ' ');
  std::replace(word.begin(), word.end(), '-', ' ');
  for (const auto& [name, method] : kMethods)
    if (word == name) return method;
  return std::nullopt;
}

DateOrder date_order(const std::vector<std::string_view>& cells) {
  bool day_first = false, month_first = false;
  for (const std::string_view cell : cells) {
    const auto t = three_parts(without_time(cell));
    if (!t || !year_is_last(*t)) continue;
    day_first = day_first || number(t->parts[0]) > 12;
    month_first = month_first || number(t->parts[1]) > 12;
  }
  if (day_first && month_first) return DateOrder::Mixed;
  if (day_first) return DateOrder::DayFirst;
  return month_first ? DateOrder::MonthFirst : DateOrder::Unknown;
}

DateCell read_date(std::string_view text, DateOrder order) {
  const auto t = three_parts(without_time(text));
  if (!t) return no_date(text);
  if (year_is_last(*t)) return in_order(*t, text, order);
  const bool year_first = t->parts[0].size() == 4 && t->parts[1].size() <= 2 &&
                          t->parts[2].size() <= 2 && t->mark != '.';
  const bool dotted = t->mark == '.' && t->parts[0].size() <= 2 && t->parts[1].size() <= 2 &&
                      (t->parts[2].size() == 4 || t->parts[2].size() == 2);
  std::optional<Date> date;
  if (year_first) date = day_of(number(t->parts[0]), number(t->parts[1]), number(t->parts[2]));
  if (dotted) date = day_of(full_year(t->parts[2]), number(t->parts[1]), number(t->parts[0]));
  return date ? DateCell{date, {}} : no_date(text);
}

}  // namespace storage
