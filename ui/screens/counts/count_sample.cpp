// Asks for the samples that counts lack: how many bees were washed, or how long the board lay. Each
// is asked once; the count then stands corrected.
#include "ui/screens/counts/count_sample.h"

#include <fmt/format.h>

#include "engine/rounds/due.h"
#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/count_words.h"

namespace ui {

namespace {

constexpr int kSample = 0;

std::optional<engine::DueSample> first_missing(const Look& look, engine::YardId yard) {
  for (const engine::Colony* colony : engine::colonies_of(look.farm, yard)) {
    const auto missing = engine::samples_missing(look.farm, colony->id, look.today());
    if (!missing.empty()) return missing.front();
  }
  return std::nullopt;
}

NumberAsk asked_of(const Look& look, const engine::DueSample& s) {
  const std::string about =
      fmt::format("{}, {}, {}", engine::colony_name(look.farm, s.colony),
                  engine::counted(static_cast<std::size_t>(s.taken.mites), "mite", "mites"),
                  short_day(s.taken.on, look.today()));
  if (of_bees(s.taken.method))
    return {"Bees in the sample: " + about, "bees", 1, 5000, 0, {{"300 bees", 300}}};
  return {"Hours the board lay: " + about, "h", 1, 24 * 31, 0, {{"1 day", 24}, {"3 days", 72}}};
}

}  // namespace

Ask sample_page(Touch& t, const Look& look, CountsView& v, const engine::Yard& yard) {
  const auto missing = first_missing(look, yard.id);
  double value = 0;
  const bool typed = missing && typed_number(t, v.typing, asked_of(look, *missing), value);
  if (!missing || (!typed && v.typing.field != kSample)) {
    v.page_of = CountsPage::Yard;
    v.typing = {};
  }
  if (!typed) return {};
  start_number(v.typing, kSample);
  engine::CountTaken whole = missing->taken;
  (of_bees(whole.method) ? whole.bees : whole.hours) = static_cast<int>(value);
  return engine::Body{engine::EntryCorrected{missing->entry, "the sample was missing",
                                             engine::Replacement{engine::ReplacementBody{whole}}}};
}

}  // namespace ui
