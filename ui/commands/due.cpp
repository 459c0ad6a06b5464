#include <fmt/format.h>

#include <algorithm>

#include "engine/agenda/agenda.h"
#include "engine/calendar/propose.h"
#include "engine/words/words.h"
#include "storage/answers/due_json.h"
#include "ui/app/app_assets.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

using namespace engine;

std::string when(int days_over) {
  if (days_over == 0) return "due today";
  if (days_over > 0)
    return fmt::format("{} overdue", counted(static_cast<std::size_t>(days_over), "day", "days"));
  return fmt::format("in {}", counted(static_cast<std::size_t>(-days_over), "day", "days"));
}

void print_rounds(const Farm& farm, const char* title, const std::vector<DueRound>& rounds) {
  if (rounds.empty()) return;
  say("{}\n", title);
  for (const DueRound& r : rounds)
    say("  {}: round {} of {}, planned {}, {}\n", farm.yards.at(r.yard).name, r.number, r.of,
        iso_date(r.planned), when(r.days_over));
}

void print_come_backs(const Farm& farm, const std::vector<ComeBack>& list) {
  if (list.empty()) return;
  say("Come-back list\n");
  for (const ComeBack& c : list) {
    std::string reasons;
    for (const ComeBackReason& r : c.reasons) reasons += (reasons.empty() ? "" : "; ") + words(r);
    say("  {}, {}: {}\n", farm.yards.at(c.yard).name, colony_name(farm, c.colony), reasons);
  }
}

void print_counts(const Farm& farm, const std::vector<DueCount>& list) {
  if (list.empty()) return;
  say("Counts due\n");
  for (const DueCount& c : list)
    say("  {}: {}\n", farm.yards.at(c.yard).name,
        c.last ? fmt::format("last counted {}, {} days ago", iso_date(*c.last), c.days_since)
               : std::string("never counted"));
}

void print_post_counts(const Farm& farm, const std::vector<DuePostCount>& list) {
  if (list.empty()) return;
  say("Counts after a course (14 days after its last round)\n");
  for (const DuePostCount& c : list)
    say("  {}: last round walked {}, count on {}, {}\n", farm.yards.at(c.yard).name,
        iso_date(c.last_round), iso_date(c.planned), when(c.days_over));
}

void print_visits(const Farm& farm, const std::vector<Visit>& list) {
  const auto brings = [](const Visit& v) { return !v.come_backs.empty(); };
  if (std::none_of(list.begin(), list.end(), brings)) return;
  say("Come-back colonies, in which visit\n");
  for (const Visit& v : list) {
    if (!brings(v)) continue;
    std::string names;
    for (const ColonyId c : v.come_backs)
      names += (names.empty() ? "" : ", ") + std::string(colony_name(farm, c));
    say("  {}: {}: {}{}\n", iso_date(v.on), farm.yards.at(v.yard).name, names,
        v.course ? " (with the round)" : "");
  }
}

void print_moves(const Farm& farm, Date on) {
  const Proposal p = propose_for_missed(farm, {on, nullptr, {}});
  if (!p.empty()) say("Rounds missed: new evenings to choose in Courses\n");
  if (!p.empty())
    for (const std::string& line : p.lines) say("  {}\n", line);
  for (const auto& [lost, why] : storage::lately_lost(farm, on))
    say("Evening of {} lost: {}\n", iso_date(lost), words(why));
}

// A walk that was never closed: what it treated is not settled yet.
void print_open_walks(const Farm& farm, DeviceId own) {
  for (const auto& [device, id] : farm.walk_under_way) {
    const Walk& walk = farm.walks.at(id);
    say("Walk open in {} since {} {}{}\n", farm.yards.at(walk.yard).name,
        iso_date(local_date(walk.opened)), clock_time(walk.opened),
        device == own ? "" : " on tablet " + short_device(device));
  }
}

void print_lead(const Farm& farm, const char* title, const std::vector<AgendaItem>& agenda,
                AgendaKind kind) {
  const auto is_it = [&](const AgendaItem& i) { return i.kind == kind; };
  if (std::none_of(agenda.begin(), agenda.end(), is_it)) return;
  say("{}\n", title);
  for (const AgendaItem& item : agenda)
    if (is_it(item)) say("  {}\n", line_of(item, farm));
}

// In the order of the agenda (engine/agenda).
void print_agenda(const Farm& farm, const Due& due, const std::vector<AgendaItem>& agenda,
                  DeviceId own) {
  print_lead(farm, "Still shut", agenda, AgendaKind::Shut);
  print_open_walks(farm, own);
  print_lead(farm, "To treat, no rounds planned", agenda, AgendaKind::Treat);
  print_rounds(farm, "Rounds due", due.rounds);
  print_come_backs(farm, due.come_backs);
  print_lead(farm, "Found dead", agenda, AgendaKind::DeadOut);
  print_lead(farm, "Strips to take out", agenda, AgendaKind::StripsOut);
  print_post_counts(farm, due.post_counts);
  print_lead(farm, "Counts without their sample", agenda, AgendaKind::Sample);
  print_counts(farm, due.counts);
  print_lead(farm, "Supers and honey that wait", agenda, AgendaKind::Wait);
  print_rounds(farm, "Rounds to come", due.coming);
}

}  // namespace

int due_command(const DueCall& call, const Surroundings& around) {
  const auto store = open_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  const Farm& farm = store.value().farm();
  const Date on = call.on.value_or(local_date(around.now()));
  const Due due = due_on(farm, on);
  const auto assets = load_assets(around.assets, around.environment);
  const std::vector<MethodRules> methods =
      assets.ok() ? assets.value().methods : std::vector<MethodRules>{};
  if (call.json) {
    fmt::print("{}\n", json_for_terminal(storage::due_json(farm, due, on, methods)));
    return 0;
  }
  say("On {}\n", iso_date(on));
  const std::vector<AgendaItem> agenda = agenda_of(farm, due, on, methods);
  print_agenda(farm, due, agenda, store.value().device());
  print_visits(farm, visits(farm, {on, nullptr, {}}));
  print_moves(farm, on);
  if (!assets.ok()) say("When strips come out is not known: {}\n", assets.status().message());
  const auto only_to_come = [](const AgendaItem& i) { return i.kind >= AgendaKind::Wait; };
  if (std::all_of(agenda.begin(), agenda.end(), only_to_come) && due.post_counts.empty())
    say("Nothing is due.\n");
  return 0;
}

}  // namespace ui
