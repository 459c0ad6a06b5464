#include "storage/trust/signature.h"
#include "tests/fuzz/targets.h"

// A bundle's file of signatures. A line "sign" is answered with a true one, so that not only lines
// that hold nothing are seen.
void fuzz::signatures(std::string_view bytes) {
  const auto read = storage::read_signatures(bytes);
  must(read.signatures.size() <= storage::kMostSignatures, "so many and no more are read");
  for (const storage::Signature& s : read.signatures) {
    storage::Signature again;
    must(storage::parse_line(storage::to_line(s), again) && again == s, "lines have one form");
    must(s.entry.seq > 0, "numbers count from one");
    (void)storage::holds(s);
  }
  const std::string text = storage::signatures_text(read.signatures);
  must(storage::read_signatures(text).signatures == read.signatures, "a file comes back");
  const auto key = storage::TabletKey::from_seed(storage::sha256("fuzz"));
  storage::Signature own =
      storage::sign(key, {"0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b", 1, storage::sha256(bytes)});
  must(storage::holds(own), "what was signed holds");
  if (!read.signatures.empty() && read.signatures[0].bytes != own.bytes) {
    own.bytes = read.signatures[0].bytes;
    must(!storage::holds(own), "no other bytes do");
  }
}
