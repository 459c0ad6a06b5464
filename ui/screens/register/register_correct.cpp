// Correcting an entry: it is struck and said anew in one act.
#include "ui/screens/register/register_correct.h"

#include "engine/register/day.h"
#include "ui/screens/base/body_fields.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

const std::vector<std::string> kWhy = {"typing mistake", "read wrong", "wrong colony",
                                       "wrong day",      "wrong lot",  "measured again"};

std::string reason_of(const CorrectView& c) {
  const std::string& why = kWhy[c.reason];
  return c.own_words.empty() ? why : why + ", " + c.own_words;
}

// As it should have been, then why it was wrong.
std::vector<FormField> all_fields(const Look& look, CorrectView& c) {
  std::vector<FormField> list = fields_of(look, c.body);
  list.push_back(options_field("Why corrected", kWhy, static_cast<int>(c.reason),
                               [&c](std::size_t i) { c.reason = i; }));
  list.push_back(words_field(
      "In own words", c.own_words, [&c](const std::string& words) { c.own_words = words; },
      "may stay empty"));
  return list;
}

}  // namespace

bool can_correct(const engine::Entry& entry) {
  return !entry.struck && engine::words_of(entry).has_value();
}

void begin_correct(RegisterView& v, const engine::Entry& entry) {
  v.correct = CorrectView{entry.event.ref, engine::words_of(entry)->body()};
}

Ask correct_page(Touch& t, Rect room, const Look& look, RegisterView& v) {
  CorrectView& c = *v.correct;
  const engine::EntryHandle entry = engine::find_entry(look.farm, c.entry);
  const std::vector<FormField> fields = all_fields(look, c);
  if (form_panel(t, look, c.form, fields)) return {};
  bool back = false;
  head(t, room, "Correct", "entry " + engine::short_ref(c.entry) + " stays readable as struck",
       &back);
  const engine::Replacement now{c.body};
  const engine::Body body = engine::EntryCorrected{c.entry, reason_of(c), now};
  const Tried& tried = c.tried.of(look, body);
  const auto before = entry != nullptr ? engine::words_of(*entry) : std::nullopt;
  const bool changed = before && !engine::same_words(*before, now);
  const bool fine = changed && tried.refusal == engine::Refusal::None;
  const bool drops = changed && !tried.fall.empty();
  const Act list[] = {{.label = "Save correction",
                       .second = !changed ? "nothing is changed"
                                 : drops  ? "would drop " + tried.fall
                                          : engine::sentence(tried.refusal),
                       .enabled = fine,
                       .surface = drops ? Surface::Warning : Surface::Action,
                       .hold = drops,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  form_fields(t, room, c.form, fields);
  if (back || save) v.correct.reset();
  return save ? Ask{body} : Ask{};
}

}  // namespace ui
