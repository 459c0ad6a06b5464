#include "storage/bundle/rounds_ics.h"

#include <doctest/doctest.h>

#include "engine/farm/queries.h"
#include "tests/support/payload_fixture.h"

namespace rounds_ics_test {

using namespace fixture;

namespace {

std::string calendar(const engine::Farm& farm) {
  return storage::rounds_ics(farm, *engine::stamp_from_rfc3339("2026-08-20T08:00:00-07:00"));
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != text.npos; at = text.find(what, at + 1)) ++n;
  return n;
}

std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != text.npos; at = text.find("\r\n "))
    text.erase(at, 3);
  return text;
}

}  // namespace

// RFC 5545 section 3.1: lines end in CRLF and are at most 75 octets long without it.
TEST_CASE("lines end in CRLF, are at most 75 octets and never cut a character") {
  const std::string text = calendar(hostile_evening().farm);
  std::size_t longest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    REQUIRE(end != text.npos);
    CHECK((static_cast<unsigned char>(text[at]) & 0xC0) != 0x80);
    if (text[at] == ' ') CHECK((static_cast<unsigned char>(text[at + 1]) & 0xC0) != 0x80);
    longest = std::max(longest, end - at);
    at = end + 2;
  }
  CHECK(longest <= 75);
  CHECK(longest >= 74);
  CHECK(count(text, "\n") == count(text, "\r\n"));
}

TEST_CASE("every round to come and every walk to come back to is one event") {
  const std::string text = unfolded(calendar(hostile_evening().farm));
  CHECK(count(text, "BEGIN:VEVENT") == 5);  // and the honey that waited after the formic acid
  CHECK(count(text, "SUMMARY:Treat Thistle Bank: round ") == 3);
  CHECK(count(text, "DTSTART;VALUE=DATE:20260821") == 1);
  CHECK(count(text, "SUMMARY:Come back to Thistle Bank: 5 colonies") == 1);
  CHECK(count(text, "DTSTART;VALUE=DATE:20260815") == 1);
  CHECK(count(text, "A4: passed over: too weak") == 1);
}

TEST_CASE("a round that moved keeps its UID and raises its sequence") {
  Pen pen = hostile_evening();
  pen.write(engine::CourseChanged{kCourse, {date(2026, 8, 22), date(2026, 8, 28)}, "rain"});
  const std::string text = unfolded(calendar(pen.farm));
  const std::string uid = "UID:round-1-" + engine::text(kCourse);
  CHECK(count(unfolded(calendar(hostile_evening().farm)), uid) == 1);
  CHECK(count(text, uid) == 1);
  CHECK(count(text, "SEQUENCE:1\r\n") == 3);
  CHECK(count(text, "DTSTART;VALUE=DATE:20260822") == 1);
}

TEST_CASE("the rounds of an ended course are cancelled under their own UIDs") {
  Pen pen = hostile_evening();
  CHECK(count(calendar(pen.farm), "STATUS:CANCELLED") == 0);
  pen.write(engine::CourseEnded{kCourse, "counts are low"});
  const std::string text = calendar(pen.farm);
  CHECK(count(text, "UID:round-") == 3);
  CHECK(count(text, "STATUS:CANCELLED") == 3);
  CHECK(count(text, "SEQUENCE:1\r\n") == 3);
}

TEST_CASE("a round that a change took away is cancelled, not forgotten") {
  Pen pen = hostile_evening();
  pen.write(engine::CourseChanged{kCourse, {date(2026, 8, 22), date(2026, 8, 28)}, "rain"});
  const std::string text = unfolded(calendar(pen.farm));
  CHECK(count(text, "UID:round-3-" + engine::text(kCourse)) == 1);
  CHECK(count(text, "STATUS:CANCELLED") == 1);
}

TEST_CASE("a come-back that was settled is cancelled, with a higher sequence") {
  Pen pen = hostile_evening();
  const std::string before = unfolded(calendar(pen.farm));
  for (const engine::ComeBack& back : engine::come_back_list(pen.farm))
    pen.write(engine::ComeBackSettled{back.colony, "looked fine"});
  const std::string text = unfolded(calendar(pen.farm));
  CHECK(count(before, "UID:come-back-") == 1);
  CHECK(count(text, "UID:come-back-") == 1);
  CHECK(count(text, "STATUS:CANCELLED") == 1);
  CHECK(count(text, "No colony needs the visit any more.") == 1);
}

TEST_CASE("what was cancelled long ago is not told for ever") {
  Pen pen = hostile_evening();
  pen.write(engine::CourseEnded{kCourse, "counts are low"});
  const std::string text =
      storage::rounds_ics(pen.farm, *engine::stamp_from_rfc3339("2028-08-20T08:00:00-07:00"));
  CHECK(count(text, "UID:round-") == 0);
}

TEST_CASE("a finished course asks for its count, which is cancelled once it was taken") {
  Pen pen = hostile_evening();
  pen.write(engine::CourseChanged{kCourse, {date(2026, 8, 16)}, "one round"});
  engine::EnteredLate late;
  late.walk = id<engine::WalkId>(40);
  late.yard = kYard;
  late.on = date(2026, 8, 15);
  late.rules = rules();
  late.dose = {1000};
  for (int n = 1; n <= 7; ++n) {
    late.colony = colony(n);
    pen.write(late);
  }
  std::string text = unfolded(calendar(pen.farm));
  CHECK(count(text, "SUMMARY:Treated Thistle Bank: round 1 of 1") == 1);
  CHECK(count(text, "SUMMARY:Count mites: Thistle Bank") == 1);
  CHECK(count(text, "DTSTART;VALUE=DATE:20260829") == 1);  // two weeks after the round
  pen.wait(24h * 14);
  engine::CountTaken taken{colony(1), date(2026, 8, 29)};
  taken.bees = 300;
  pen.write(taken);
  text = unfolded(
      storage::rounds_ics(pen.farm, *engine::stamp_from_rfc3339("2026-08-30T08:00:00-07:00")));
  const std::string counted = text.substr(text.find("UID:post-count-"));
  CHECK(counted.substr(0, counted.find("END:VEVENT")).find("STATUS:CANCELLED") != text.npos);
}

namespace {

// Strips as common practice has their labels: 42 days in the hive, honey and supers a time after.
engine::MethodRules strip_rules() {
  engine::MethodRules m;
  m.id = "strips";
  m.name = "Strips";
  m.method = engine::Method::Strip;
  m.days_in_hive = 42;
  m.supers_after_days = 14;
  m.wait_from = engine::CountedFrom::Removal;
  return m;
}

engine::OtherTreatmentGiven strips_in(int n) {
  engine::OtherTreatmentGiven g;
  g.colony = colony(n);
  g.on = date(2026, 8, 16);
  g.method = engine::Method::Strip;
  g.product = "Strips of the test";
  g.withdrawal_days = 14;
  g.rules = "strips";
  return g;
}

std::string with_strips(const Pen& pen, const char* as_of = "2026-08-20T08:00:00-07:00") {
  const engine::MethodRules m[] = {strip_rules()};
  return unfolded(storage::rounds_ics(pen.farm, *engine::stamp_from_rfc3339(as_of), m));
}

// The event whose summary begins so.
std::string event_of(const std::string& text, const std::string& summary) {
  const std::size_t at = text.find("SUMMARY:" + summary);
  REQUIRE(at != text.npos);
  const std::size_t begin = text.rfind("BEGIN:VEVENT", at);
  return text.substr(begin, text.find("END:VEVENT", at) - begin);
}

std::string line_of(const std::string& event, const std::string& property) {
  const std::size_t at = event.find("\r\n" + property) + 2;
  return event.substr(at, event.find("\r\n", at) - at);
}

}  // namespace

// 16 August and 42 days: 27 September; 14 more: 11 October.
TEST_CASE("strips say in the calendar by when they come out, and what waits from then on") {
  Pen pen = hostile_evening();
  pen.write(strips_in(1)), pen.write(strips_in(2));
  const std::string text = with_strips(pen);
  const std::string out = event_of(text, "Strips out by this day: Thistle Bank");
  CHECK(line_of(out, "DTSTART") == "DTSTART;VALUE=DATE:20260927");
  CHECK(line_of(out, "STATUS") == "STATUS:CONFIRMED");
  CHECK(line_of(out, "DESCRIPTION").find("(2 colonies): Strips of the test") != out.npos);
  CHECK(line_of(event_of(text, "No supers before this day: "), "DTSTART") ==
        "DTSTART;VALUE=DATE:20261011");
  CHECK(text.find("DTSTART;VALUE=DATE:20261011\r\nDTEND;VALUE=DATE:20261012\r\n"
                  "SUMMARY:No honey for people before this day: Thistle Bank") != text.npos);
}

TEST_CASE("strips noted as out are cancelled under their UID, and what waits moves") {
  Pen pen = hostile_evening();
  const engine::EntryRef entry = pen.write(strips_in(1));
  const std::string before = event_of(with_strips(pen), "Strips out by this day: ");
  pen.wait(20 * 24h);
  engine::OtherTreatmentGiven out = strips_in(1);
  out.days_given = 10;
  pen.write(engine::EntryCorrected{entry, "they are out", engine::Replacement(out)});
  const std::string text = with_strips(pen);
  const std::string after = event_of(text, "Strips out by this day: ");
  CHECK(line_of(after, "UID") == line_of(before, "UID"));
  CHECK(line_of(before, "SEQUENCE") < line_of(after, "SEQUENCE"));
  CHECK(line_of(after, "STATUS") == "STATUS:CANCELLED");
  // Out on 26 August: honey and supers 14 days later; once that is over it stays as it was.
  for (const char* as_of : {"2026-08-28T08:00:00-07:00", "2026-10-28T08:00:00-07:00"}) {
    const std::string waits = event_of(with_strips(pen, as_of), "No supers before this day: ");
    CHECK(line_of(waits, "DTSTART") == "DTSTART;VALUE=DATE:20260909");
    CHECK(line_of(waits, "STATUS") == "STATUS:CONFIRMED");
  }
}

TEST_CASE("a treatment that was struck makes nothing wait") {
  Pen pen = hostile_evening();
  pen.write(engine::EntryStruck{pen.write(strips_in(1)), "the wrong colony"});
  const std::string text = with_strips(pen);
  for (const char* what : {"Strips out by this day: ", "No supers before this day: "})
    CHECK(line_of(event_of(text, what), "STATUS") == "STATUS:CANCELLED");
}

TEST_CASE("a yard's name with signs of the format in it is escaped") {
  Pen pen = hostile_evening();
  engine::YardChanged change{kYard, {}, {}, {}, {}};
  change.name = "Mill; east, \\ side\nEND:VCALENDAR";
  pen.write(change);
  const std::string text = unfolded(calendar(pen.farm));
  CHECK(count(text, "LOCATION:Mill\\; east\\, \\\\ side\\nEND:VCALENDAR") == 5);
  CHECK(count(text, "\r\nEND:VCALENDAR") == 1);
}

// RFC 5545 section 3.6: icalbody holds at least one component.
TEST_CASE("with nothing to come the calendar still holds a component") {
  const std::string text = calendar({});
  CHECK(count(text, "BEGIN:VEVENT") == 0);
  CHECK(count(text, "BEGIN:VTIMEZONE") == 1);
}

}  // namespace rounds_ics_test
