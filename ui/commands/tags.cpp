#include <fmt/format.h>
#include <unistd.h>

#include "engine/farm/queries.h"
#include "storage/disk/whole_file.h"
#include "storage/register/tags_pdf.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

std::string wrong_call(const TagsCall& call) {
  if (call.file == "-" && ::isatty(STDOUT_FILENO) != 0)
    return "--out: a PDF is nothing for a terminal; name a file or send it on";
  if (call.file != "-" && !call.file.ends_with(".pdf"))
    return "--out: the file must end in .pdf: " + call.file;
  return wrong_out(call.file);
}

}  // namespace

int tags_command(const TagsCall& call, const Surroundings& around) {
  if (const std::string wrong = wrong_call(call); !wrong.empty())
    return say_failure(engine::Code::BadInput, wrong);
  const auto store = open_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  const engine::Farm& farm = store.value().farm();
  std::optional<engine::YardId> yard;
  if (call.yard) {
    for (const engine::YardId id : yards_called(farm, *call.yard))
      if (!farm.yards.at(id).lost) yard = id;
    if (!yard)
      return say_failure(engine::Code::BadInput,
                         fmt::format("--yard: there is no yard \"{}\"", *call.yard));
  }
  const std::string bytes = storage::tags_pdf(farm, yard, around.now());
  if (bytes.empty())
    return say_failure(engine::Code::NotFound, "there are no colonies to make tags for");
  if (call.file == "-") {
    print_bytes(bytes);
    return 0;
  }
  if (const engine::Status saved = storage::write_whole_file(call.file, bytes); !saved.ok())
    return say_failure(saved);
  say("{}: written\n", call.file);
  return 0;
}

}  // namespace ui
