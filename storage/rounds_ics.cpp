#include "storage/rounds_ics.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/course/due.h"
#include "engine/register/lookup.h"
#include "engine/register/words.h"

namespace storage {
namespace {

using namespace engine;

constexpr std::size_t kMostOctets = 75;  // RFC 5545 section 3.1, without the line break

bool continues_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

// RFC 5545 section 3.3.11: TEXT. Control characters have no place in it.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') out += "\\n";
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) continue;
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

class Calendar {
 public:
  void line(std::string_view property, std::string_view value) {
    std::string rest = fmt::format("{}:{}", property, value);
    std::size_t room = kMostOctets;
    while (rest.size() > room) {
      std::size_t cut = room;
      while (cut > 1 && continues_a_character(rest[cut])) --cut;
      out_ += rest.substr(0, cut) + "\r\n ";
      rest.erase(0, cut);
      room = kMostOctets - 1;  // the space at the start of a folded line counts
    }
    out_ += rest + "\r\n";
  }
  void text(std::string_view property, std::string_view value) { line(property, escaped(value)); }

  [[nodiscard]] const std::string& bytes() const { return out_; }

 private:
  std::string out_;
};

std::string basic_date(Date d) {
  std::string iso = iso_date(d);
  std::erase(iso, '-');
  return iso;
}

std::string utc_stamp(const Stamp& s) {
  const Stamp utc{s.at, std::chrono::minutes{0}, {}, {}};
  std::string clock = clock_seconds(utc);
  std::erase(clock, ':');
  return fmt::format("{}T{}Z", basic_date(local_date(utc)), clock);
}

Date next_day(Date d) { return Date{days(d) + std::chrono::days{1}}; }

struct Appointment {
  std::string uid;
  int sequence = 0;
  Date on{};
  std::string summary;
  std::string description;
  std::optional<Place> place;
  std::string location;
};

void write(Calendar& out, const Appointment& a, const Stamp& as_of) {
  out.line("BEGIN", "VEVENT");
  out.line("UID", a.uid);
  out.line("DTSTAMP", utc_stamp(as_of));
  out.line("SEQUENCE", std::to_string(a.sequence));
  out.line("DTSTART;VALUE=DATE", basic_date(a.on));
  out.line("DTEND;VALUE=DATE", basic_date(next_day(a.on)));  // the day after the last: 3.6.1
  out.text("SUMMARY", a.summary);
  out.text("DESCRIPTION", a.description);
  out.text("LOCATION", a.location);
  if (a.place)
    out.line("GEO", fmt::format("{:.6f};{:.6f}", a.place->lat_udeg / 1e6, a.place->lon_udeg / 1e6));
  out.line("TRANSP", "TRANSPARENT");
  out.line("END", "VEVENT");
}

void put_in_yard(Appointment& a, const Farm& farm, YardId yard) {
  a.location = yard_called(farm, yard);
  if (const auto at = farm.yards.find(yard); at != farm.yards.end()) a.place = at->second.place;
}

bool moves(const std::vector<CourseDates>& courses, CourseId course) {
  return std::any_of(courses.begin(), courses.end(),
                     [&](const CourseDates& c) { return c.course == course && !c.yard; });
}

int changes_of(const Farm& farm, CourseId course) {
  int changes = 0;
  for (const Entry& e : farm.log) {
    const Body& body = e.event.body;
    if (const auto* c = std::get_if<CourseChanged>(&body)) changes += c->course == course;
    if (const auto* c = std::get_if<CoursesPlanned>(&body)) changes += moves(c->courses, course);
    if (const auto* c = std::get_if<EveningLost>(&body)) changes += moves(c->moved, course);
  }
  return changes;
}

void write_rounds(Calendar& out, const Farm& farm, const Course& course, const Stamp& as_of) {
  const std::vector<RoundState> rounds = rounds_of(farm, course);
  for (std::size_t i = 0; i < rounds.size(); ++i) {
    if (rounds[i].walked) continue;
    Appointment a;
    a.uid = fmt::format("round-{}-{}@duskwalk.invalid", i + 1, text(course.id));
    a.sequence = changes_of(farm, course.id);
    a.on = rounds[i].planned;
    put_in_yard(a, farm, course.yard);
    a.summary = fmt::format("Treat {}: round {} of {}", a.location, i + 1, rounds.size());
    a.description = "At dusk or dawn, when the bees are home. The label in your hand decides.";
    write(out, a, as_of);
  }
}

std::string colony_line(const Farm& farm, const ComeBack& back) {
  std::string why;
  for (const ComeBackReason& r : back.reasons) why += (why.empty() ? "" : "; ") + words(r);
  return fmt::format("{}: {}", colony_called(farm, back.colony), why);
}

void write_come_backs(Calendar& out, const Farm& farm, const Stamp& as_of) {
  std::map<WalkId, std::vector<ComeBack>> by_walk;
  for (const ComeBack& back : come_back_list(farm)) by_walk[back.walk].push_back(back);
  for (const auto& [id, backs] : by_walk) {
    const Walk& walk = farm.walks.at(id);
    Appointment a;
    a.uid = fmt::format("come-back-{}@duskwalk.invalid", text(id));
    a.on = next_day(local_date(walk.opened));
    put_in_yard(a, farm, walk.yard);
    a.summary =
        fmt::format("Come back to {}: {}", a.location, counted(backs.size(), "colony", "colonies"));
    for (const ComeBack& back : backs) a.description += colony_line(farm, back) + "\n";
    a.description += "The label in your hand decides when a colony may be treated again.";
    write(out, a, as_of);
  }
}

// A calendar holds at least one component (section 3.6); with nothing to come, this harmless one.
void write_utc(Calendar& out) {
  out.line("BEGIN", "VTIMEZONE");
  out.line("TZID", "Etc/UTC");
  out.line("BEGIN", "STANDARD");
  out.line("DTSTART", "19700101T000000");
  out.line("TZOFFSETFROM", "+0000");
  out.line("TZOFFSETTO", "+0000");
  out.line("END", "STANDARD");
  out.line("END", "VTIMEZONE");
}

}  // namespace

std::string rounds_ics(const Farm& farm, const Stamp& as_of) {
  Calendar out;
  out.line("BEGIN", "VCALENDAR");
  out.line("VERSION", "2.0");
  out.line("PRODID", "-//Duskwalk//Rounds//EN");
  out.line("CALSCALE", "GREGORIAN");
  for (const auto& [id, course] : farm.courses)
    if (!course.ended) write_rounds(out, farm, course, as_of);
  write_come_backs(out, farm, as_of);
  if (out.bytes().find("BEGIN:VEVENT") == std::string::npos) write_utc(out);
  out.line("END", "VCALENDAR");
  return out.bytes();
}

}  // namespace storage
