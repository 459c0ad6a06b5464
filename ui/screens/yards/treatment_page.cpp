// Another treatment than vapor in a walk: today's or an earlier day's.
#include "ui/screens/yards/treatment_page.h"

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/body_fields.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

Ask treatment_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  TreatmentDraft& d = v.treatment;
  if (!d.begun) d = {true, {c.id, look.today(), engine::Method::Dribble}, {}};
  const std::vector<FormField> fields = treatment_fields(look, d.given);
  if (form_panel(t, look, d.form, fields)) return {};
  bool back = false;
  head(t, room, "Other treatment: " + c.name, look.farm.yards.at(c.yard).name, &back);
  const engine::Body body = d.given;
  const bool fine = why_not(look, body) == engine::Refusal::None;
  const Act list[] = {{.label = "Save treatment",
                       .second = fine ? "" : "the product is missing",
                       .enabled = fine,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  form_fields(t, room, d.form, fields);
  if (back || save) v.page_of = YardsPage::None;
  if (!save) return {};
  return body;
}

}  // namespace ui
