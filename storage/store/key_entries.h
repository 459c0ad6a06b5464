// storage/store/key_entries.h -- the entries of a journal that are about tablets and their keys.
//
// There are few, and each opening and merging asks for all of them. With its checkpoint a large
// store notes where they stand among its first so many entries, so that only later ones are looked
// through. Inside storage/ only.
#pragma once
#include <functional>

#include "storage/journal/journal.h"

namespace storage {

// In no order. A note that does not fit the journal is left alone, and everything looked through.
Status each_key_entry(const Journal& journal, const std::function<void(const Sealed&)>& take);

// Notes those that the journal has now.
Status note_key_entries(Journal& journal);

}  // namespace storage
