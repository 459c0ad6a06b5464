// One name means one thing in all of storage/: two headers that define a type twice, differently,
// break silently when they never meet in one source. Here they all meet.
#include <doctest/doctest.h>

#include "storage/answers/due_json.h"
#include "storage/bundle/bag.h"
#include "storage/bundle/bag_plan.h"
#include "storage/bundle/bag_read.h"
#include "storage/bundle/bag_text.h"
#include "storage/bundle/day_bundle.h"
#include "storage/bundle/rounds_ics.h"
#include "storage/bundle/yards_geojson.h"
#include "storage/disk/files.h"
#include "storage/disk/media_errors.h"
#include "storage/disk/paths.h"
#include "storage/disk/payload_path.h"
#include "storage/disk/random.h"
#include "storage/disk/removable_media.h"
#include "storage/disk/sha256.h"
#include "storage/disk/vfs_file.h"
#include "storage/disk/whole_file.h"
#include "storage/journal/ballast.h"
#include "storage/journal/events_jsonl.h"
#include "storage/journal/journal.h"
#include "storage/journal/journal_check.h"
#include "storage/journal/journal_db.h"
#include "storage/journal/journal_impl.h"
#include "storage/journal/journal_open.h"
#include "storage/journal/journal_testing.h"
#include "storage/journal/known_events.h"
#include "storage/journal/progress_mark.h"
#include "storage/journal/record.h"
#include "storage/journal/recover.h"
#include "storage/journal/store_probe.h"
#include "storage/journal/wal_image.h"
#include "storage/profiles/labels.h"
#include "storage/register/register_files.h"
#include "storage/register/register_html_rows.h"
#include "storage/register/register_style.h"
#include "storage/sheets/cells.h"
#include "storage/sheets/csv_table.h"
#include "storage/sheets/sheet_columns.h"
#include "storage/sheets/sheet_farm.h"
#include "storage/sheets/sheet_rows.h"
#include "storage/sheets/sheet_words.h"
#include "storage/sheets/spreadsheet.h"
#include "storage/store/event_json.h"
#include "storage/store/guarded_fold.h"
#include "storage/store/replay.h"
#include "storage/store/store.h"
#include "storage/text/csv_out.h"
#include "storage/text/html_text.h"
#include "storage/text/json_fields.h"
#include "storage/text/utf8.h"

namespace headers_test {

TEST_CASE("all headers of storage can be read together, so that no name has two meanings") {
  CHECK_FALSE(std::is_same_v<storage::FileKind, storage::VfsKind>);
}

}  // namespace headers_test
