#include <fmt/format.h>

#include "storage/bundle/sql_files.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {

int sql_command(const BundleCall& call, const Surroundings& around) {
  const auto store = open_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  ProgressLine line([&around] { return around.now().since_boot; });
  const auto written =
      storage::write_sql(store.value(), call.folder, line.progress(), around.stopped);
  line.end();
  if (!written.ok()) return say_failure(written.status());
  say("{}: {} entries, {} rows of the register. To load: psql -d DATABASE -f load.sql, in "
      "that folder.\n",
      call.folder, written.value().entries, written.value().treatments);
  return 0;
}

}  // namespace ui
