// storage/disk/paths.h -- where a keeper's files lie: the XDG base directory specification 0.8.
//
// Pure but for make_folders_for: the environment is an argument.
#pragma once
#include <map>
#include <string>

#include "engine/core/status.h"

namespace storage {

using Environment = std::map<std::string, std::string>;

// "$XDG_DATA_HOME/duskwalk", else "$HOME/.local/share/duskwalk". Paths that are not absolute are
// passed over, as the specification asks. NotFound when neither is set.
[[nodiscard]] engine::Result<std::string> data_folder(const Environment& environment);

// `chosen` (--store) when it is not empty, else $DUSKWALK_STORE, else duskwalk.journal in the data
// folder.
[[nodiscard]] engine::Result<std::string> store_path(const std::string& chosen,
                                                     const Environment& environment);

// Where the notes of a store on exchange folders lie (storage/bundle/exchange_notes.h).
[[nodiscard]] std::string exchange_notes_path(const std::string& store_path);

// The folder of `file` and those above it, readable by their owner only (mode 0700). Each one that
// is made is flushed, and so is the folder that it is in: they outlive a power cut.
engine::Status make_folders_for(const std::string& file);

}  // namespace storage
