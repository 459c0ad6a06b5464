// tests/fuzz/small_store.h -- a small store of an invented yard, for targets that damage its files.
#pragma once
#include <string>

#include "storage/store/store.h"

namespace fuzz {

// Of a store in which entries can be made: no ballast, a checkpoint from the first entry on.
[[nodiscard]] storage::JournalOptions store_options();

// Appends what the sheet says.
void add_sheet(storage::Store& store, const char* text);

// A closed store of a yard with two colonies at `path` in the scratch folder.
void make_store(const std::string& path);

[[nodiscard]] std::string path_of(const char* name);  // in the scratch folder
[[nodiscard]] std::string text_of(const std::string& path);
void spill(const std::string& path, const std::string& bytes);

}  // namespace fuzz
