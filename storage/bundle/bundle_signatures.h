// storage/bundle/bundle_signatures.h -- the file "signatures.txt" of a bundle, before and after the
// way (storage/trust/signature.h).
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "storage/journal/record.h"
#include "storage/store/store.h"
#include "storage/trust/signature.h"

namespace storage {

inline constexpr const char* kSignaturesFile = "signatures.txt";  // below data/

// The text of that file for the bundle of a day, or of everything (day_bundle.h). Empty: nobody
// signs, and the bundle has no such file.
[[nodiscard]] std::string signatures_of_day(const Store& store, std::span<const Sealed> records,
                                            std::optional<engine::Date> day);

// Takes out of `events` those of each tablet with a signature that does not hold, or that is of an
// entry which is not among them: whoever made it did not have the key. They stay in the bundle, and
// each tablet gets a line. What comes back holds.
[[nodiscard]] std::vector<Signature> keep_signed(const std::string& bundle, ReadSignatures read,
                                                 std::vector<Sealed>& events,
                                                 std::vector<std::string>& lines);

}  // namespace storage
