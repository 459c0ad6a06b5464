#include <fmt/format.h>

#include "storage/answers/order_json.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

std::string minutes(double seconds) {
  return engine::minutes_seconds(engine::Ms{static_cast<std::int64_t>(seconds * 1000)});
}

void print_table(const engine::OrderCase& c, const OrderCall& call) {
  say("A seal of {}; longest seal: within the time of a walk that never waits for a cloth\n",
      minutes(c.seal_s));
  say("cloths     finish   longest seal\n");
  for (const engine::ClothRow& row : engine::cloth_table(c, call.cloths_from, call.cloths_to))
    say("{:>6} {:>10} {:>14}{}\n", row.cloths, minutes(row.finish_s), minutes(row.longest_seal_s),
        row.cloths == c.cloths ? "   as asked" : "");
}

}  // namespace

int order_command(const OrderCall& call) {
  const auto text = read_input(call.file);
  if (!text.ok()) return say_failure(text.status());
  const auto c = storage::read_order_case(text.value());
  if (!c.ok()) return say_failure(c.status());
  if (call.table)
    print_table(c.value(), call);
  else
    fmt::print("{}", json_for_terminal(
                         storage::order_plan_json(c.value(), engine::plan_order(c.value()))));
  return 0;
}

}  // namespace ui
