#include "storage/trust/pairing.h"

#include "tests/fuzz/targets.h"

// What people type as eight words, or a scanner reads: what is understood is said back the same.
void fuzz::pairing(std::string_view bytes) {
  if (const auto print = storage::fingerprint_of_words(bytes); print.ok()) {
    const auto again = storage::fingerprint_of_words(storage::words_of(print.value()));
    must(again.ok() && again.value() == print.value(), "words come back as they were meant");
    must(storage::fingerprint_from_text(storage::to_text(print.value())) == print.value(),
         "so do their digits");
  } else {
    must(print.status().message().find('\n') == std::string::npos, "what is wrong is one line");
  }
  if (const auto key = storage::key_of_code(bytes))
    must(storage::key_of_code(storage::pairing_code(*key)) == *key, "a code comes back");
  if (const auto print = storage::fingerprint_from_text(bytes))
    must(storage::to_text(*print) == bytes, "digits have one form");
}
