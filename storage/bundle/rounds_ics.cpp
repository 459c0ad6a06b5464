#include "storage/bundle/rounds_ics.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <type_traits>

#include "engine/rounds/due.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "storage/bundle/end_appointments.h"

namespace storage {
namespace {

using namespace engine;

// Own choice: what was cancelled or done is told for a bit more than a year.
constexpr int kDaysKept = 400;
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
  std::size_t sequence = 0;
  bool cancelled = false;
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
  out.line("STATUS", a.cancelled ? "CANCELLED" : "CONFIRMED");
  out.line("TRANSP", "TRANSPARENT");
  out.line("END", "VEVENT");
}

void put_in_yard(Appointment& a, const Farm& farm, YardId yard) {
  a.location = yard_called(farm, yard);
  if (const auto at = farm.yards.find(yard); at != farm.yards.end()) a.place = at->second.place;
}

// ---- how often an appointment may have changed: it never sinks, whatever is struck ----

// Places in the log at which the appointments of a yard may have changed, rising.
class Changes {
 public:
  explicit Changes(const Farm& farm) {
    farm.log.scan(0, [&](std::size_t i, const Entry& e) {
      const Body& body = e.event.body;
      switch (facts_of(body).moves) {
        case engine::Moves::All:
          everywhere_.push_back(i);
          break;
        case engine::Moves::OfItsYard:
          if (const auto yard = yard_of(body, farm)) of_yard_[*yard].push_back(i);
          break;
        case engine::Moves::OfItsCourses:
          add_courses(farm, body, i);
          break;
        case engine::Moves::Nothing:
          break;
      }
    });
  }

  [[nodiscard]] std::size_t after(std::size_t place, YardId yard) const {
    const auto at = of_yard_.find(yard);
    return beyond(everywhere_, place) + (at == of_yard_.end() ? 0 : beyond(at->second, place));
  }

 private:
  static std::size_t beyond(const std::vector<std::size_t>& places, std::size_t place) {
    return static_cast<std::size_t>(places.end() -
                                    std::upper_bound(places.begin(), places.end(), place));
  }
  void add_courses(const Farm& farm, const Body& body, std::size_t i) {
    const std::vector<CourseDates>* courses = nullptr;
    if (const auto* c = std::get_if<CoursesPlanned>(&body)) courses = &c->courses;
    if (const auto* c = std::get_if<EveningLost>(&body)) courses = &c->moved;
    if (courses == nullptr) return;
    for (const CourseDates& c : *courses) {
      const auto known = farm.courses.find(c.course);
      if (known != farm.courses.end()) of_yard_[known->second.yard].push_back(i);
    }
  }

  std::vector<std::size_t> everywhere_;
  std::map<YardId, std::vector<std::size_t>> of_yard_;
};

// What a calendar of rounds is made from.
struct Making {
  const Farm& farm;
  const Stamp& as_of;
  const Changes& changes;
  Calendar& out;

  // Old appointments leave the file; a calendar keeps them as they were.
  [[nodiscard]] bool recent(Date on) const {
    return days_apart(on, local_date(as_of)) <= kDaysKept;
  }
  void put(const Appointment& a) const { write(out, a, as_of); }
};

// ---- rounds ----

// Where a course was planned, and the most rounds it ever had.
struct Planned {
  std::size_t place = 0;
  std::size_t most = 0;
};

void see(std::map<CourseId, Planned>& all, CourseId id, std::size_t place, std::size_t rounds) {
  const auto at = all.try_emplace(id, Planned{place, 0}).first;
  at->second.most = std::max(at->second.most, rounds);
}

std::map<CourseId, Planned> planned_courses(const Farm& farm) {
  std::map<CourseId, Planned> all;
  farm.log.scan(0, [&](std::size_t i, const Entry& e) {
    const Body& body = e.event.body;
    if (const auto* c = std::get_if<CoursePlanned>(&body)) see(all, c->course, i, c->rounds.size());
    if (const auto* c = std::get_if<CourseChanged>(&body)) see(all, c->course, i, c->rounds.size());
    if (const auto* p = std::get_if<CoursesPlanned>(&body))
      for (const CourseDates& c : p->courses) see(all, c.course, i, c.rounds.size());
    if (const auto* p = std::get_if<EveningLost>(&body))
      for (const CourseDates& c : p->moved) see(all, c.course, i, c.rounds.size());
  });
  return all;
}

Appointment round_of(const Making& m, const Course& course, std::size_t number, std::size_t place) {
  Appointment a;
  a.uid = fmt::format("round-{}-{}@duskwalk.invalid", number, text(course.id));
  a.sequence = m.changes.after(place, course.yard);
  put_in_yard(a, m.farm, course.yard);
  return a;
}

// Those to come, those walked on the day they were, those that will not be as cancelled.
void write_rounds(const Making& m, const Course& course, const Planned& planned) {
  const std::vector<RoundState> rounds = rounds_of(m.farm, course);
  const bool over = course.ended || m.farm.yards.at(course.yard).lost;
  for (std::size_t i = 0; i < std::max(rounds.size(), planned.most); ++i) {
    Appointment a = round_of(m, course, i + 1, planned.place);
    const bool dropped = i >= rounds.size();
    const bool walked = !dropped && rounds[i].walked.has_value();
    a.on = dropped ? course.rounds.back() : rounds[i].planned;
    if (walked) a.on = local_date(m.farm.walks.at(*rounds[i].walked).opened);
    a.cancelled = dropped || (over && !walked);
    if ((walked || a.cancelled) && !m.recent(a.on)) continue;
    a.summary = walked ? fmt::format("Treated {}: round {} of {}", a.location, i + 1, rounds.size())
                       : fmt::format("Treat {}: round {} of {}", a.location, i + 1,
                                     std::max(rounds.size(), i + 1));
    a.description = walked ? (rounds[i].whole() ? std::string("Walked.")
                                                : "Walked: " + walked_words(rounds[i]) + ".")
                           : "At dusk or dawn, when the bees are home. The label in your hand "
                             "decides.";
    m.put(a);
  }
}

// ---- counts after a course ----

void write_post_counts(const Making& m, const std::map<CourseId, Planned>& planned) {
  std::map<CourseId, DuePostCount> due;
  for (const DuePostCount& c : due_on(m.farm, local_date(m.as_of)).post_counts)
    due.emplace(c.course, c);
  for (const auto& [id, course] : m.farm.courses) {
    const auto last = course_done_on(m.farm, course);
    const auto wanted = due.find(id);
    if (wanted == due.end() && (!last || !m.recent(*last))) continue;
    Appointment a;
    a.uid = fmt::format("post-count-{}@duskwalk.invalid", text(id));
    a.sequence = m.changes.after(planned.at(id).place, course.yard);
    a.cancelled = wanted == due.end();
    a.on = a.cancelled ? date_after(*last, kDaysToPostCount) : wanted->second.planned;
    put_in_yard(a, m.farm, course.yard);
    a.summary = "Count mites: " + a.location;
    a.description = a.cancelled ? "Counted, or no longer asked for."
                                : "To see whether the rounds worked. Only a count can tell.";
    m.put(a);
  }
}

// ---- colonies to come back to ----

std::string colony_line(const Farm& farm, const ComeBack& back) {
  std::string why;
  for (const ComeBackReason& r : back.reasons) why += (why.empty() ? "" : "; ") + words(r);
  return fmt::format("{}: {}", colony_called(farm, back.colony), why);
}

bool left_somebody(const Walk& walk) {
  return walk.closed && std::any_of(walk.stops.begin(), walk.stops.end(), [&](const Stop& s) {
           return !reasons_to_come_back(walk, s).empty();
         });
}

// Where each walk began in the log.
std::map<WalkId, std::size_t> begun_at(const Farm& farm) {
  std::map<WalkId, std::size_t> places;
  farm.log.scan(0, [&](std::size_t i, const Entry& e) {
    const Body& body = e.event.body;
    if (const auto* o = std::get_if<WalkOpened>(&body)) places.try_emplace(o->walk, i);
    if (const auto* l = std::get_if<EnteredLate>(&body)) places.try_emplace(l->walk, i);
  });
  return places;
}

Appointment back_to(const Making& m, const Walk& walk, const std::vector<ComeBack>& backs) {
  Appointment a;
  a.uid = fmt::format("come-back-{}@duskwalk.invalid", text(walk.id));
  a.on = next_day(local_date(walk.opened));
  put_in_yard(a, m.farm, walk.yard);
  a.cancelled = backs.empty();
  a.summary = "Come back to " + a.location;
  if (!backs.empty()) a.summary += ": " + counted(backs.size(), "colony", "colonies");
  for (const ComeBack& back : backs) a.description += colony_line(m.farm, back) + "\n";
  a.description += backs.empty()
                       ? "No colony needs the visit any more."
                       : "The label in your hand decides when a colony may be treated again.";
  return a;
}

void write_come_backs(const Making& m) {
  std::map<WalkId, std::vector<ComeBack>> by_walk;
  for (const ComeBack& back : come_back_list(m.farm)) by_walk[back.walk].push_back(back);
  const auto places = begun_at(m.farm);
  for (const auto& [id, walk] : m.farm.walks) {
    const auto backs = by_walk.find(id);
    const bool wanted = backs != by_walk.end();
    if (!wanted && !(left_somebody(walk) && m.recent(local_date(walk.opened)))) continue;
    Appointment a = back_to(m, walk, wanted ? backs->second : std::vector<ComeBack>{});
    a.sequence = m.changes.after(places.at(id), walk.yard);
    m.put(a);
  }
}

// ---- what treatments end with ----

const char* summary_of(EndKind kind) {
  switch (kind) {
    case EndKind::StripsOut:
      return "Strips out by this day: ";
    case EndKind::SupersWait:
      return "No supers before this day: ";
    case EndKind::HoneyWaits:
      break;
  }
  return "No honey for people before this day: ";
}

void write_ends(const Making& m, std::span<const MethodRules> methods) {
  const Date today = local_date(m.as_of);
  for (const EndAppointment& e :
       end_appointments(m.farm, methods, today, date_after(today, -kDaysKept))) {
    Appointment a;
    a.uid = e.uid + "@duskwalk.invalid";
    a.sequence = m.changes.after(e.place, e.end.yard) + e.entries - 1;
    a.cancelled = e.over;
    a.on = e.end.on;
    put_in_yard(a, m.farm, e.end.yard);
    a.summary = summary_of(e.end.kind) + a.location;
    a.description = e.over ? "The strips are out, or this is no longer asked for."
                           : words_of(e.end) + ". The label in your hand decides.";
    m.put(a);
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

std::string rounds_ics(const Farm& farm, const Stamp& as_of, std::span<const MethodRules> methods) {
  Calendar out;
  out.line("BEGIN", "VCALENDAR");
  out.line("VERSION", "2.0");
  out.line("PRODID", "-//Duskwalk//Rounds//EN");
  out.line("CALSCALE", "GREGORIAN");
  const Changes changes(farm);
  const Making m{farm, as_of, changes, out};
  const auto planned = planned_courses(farm);
  for (const auto& [id, course] : farm.courses) write_rounds(m, course, planned.at(id));
  write_post_counts(m, planned);
  write_come_backs(m);
  write_ends(m, methods);
  if (out.bytes().find("BEGIN:VEVENT") == std::string::npos) write_utc(out);
  out.line("END", "VCALENDAR");
  return out.bytes();
}

}  // namespace storage
