// storage/disk/guarded_open.h -- how SQLite opens the files of a store: never through a link, never
// waiting for a pipe, and new ones for their owner alone.
//
// SQLite's own open(2) follows a link that lies where its log or a file of ours should be, and
// writes to what the link names; it waits for ever for a pipe's other end; and what it makes may be
// read by everybody. All of its opens on the real disk go through this one instead (sqlite3_vfs,
// "open" of xSetSystemCall). The path of a store itself is looked up by SQLite before, so a store
// may stand behind a link that its keeper made.
#pragma once

namespace storage {

// Once for the process; safe to call again and from any thread.
void guard_sqlite_files();

}  // namespace storage
