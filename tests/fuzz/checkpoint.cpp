#include "storage/store/checkpoint.h"

#include <sodium.h>

#include "storage/disk/summed_file.h"
#include "tests/fuzz/changes.h"
#include "tests/fuzz/small_store.h"
#include "tests/fuzz/targets.h"

namespace {

constexpr std::size_t kMagic = 22, kSum = 32, kIdentity = 32;

// A byte at the front says whether the file is sealed anew after the changes, so that they get past
// it: only who has read the store could make such a file, but the reader must not go astray in it
// either.
void change_checkpoint(std::string& file, const std::string& secret, std::string_view bytes) {
  if (bytes.empty()) return;
  std::string rest = file.substr(kMagic + kSum + kIdentity);
  fuzz::change({&rest}, bytes.substr(1));
  file = file.substr(0, kMagic + kSum + kIdentity) + rest;
  if (bytes.front() % 2 == 0) return;
  const std::string summed = file.substr(kMagic + kSum);
  std::string sum(kSum, '\0');
  crypto_generichash(reinterpret_cast<unsigned char*>(sum.data()), kSum,
                     reinterpret_cast<const unsigned char*>(summed.data()), summed.size(), nullptr,
                     0);
  file.replace(kMagic, kSum, storage::seal_of(sum, secret));
}

}  // namespace

void fuzz::checkpoint(std::string_view bytes) {
  static const std::string kPath = path_of("with.journal");
  static const std::string kMade = [] {
    make_store(kPath);
    (void)storage::Store::open(kPath, store_options());  // makes the checkpoint
    return text_of(storage::checkpoint_path(kPath));
  }();
  static const std::string kSecret =
      storage::Store::open(kPath, store_options()).value().journal().secret();
  static const std::uint64_t kState =
      engine::state_hash(storage::Store::open(kPath, store_options()).value().farm());
  std::string file = kMade;
  change_checkpoint(file, kSecret, bytes);
  spill(storage::checkpoint_path(kPath), file);
  auto kept = storage::read_checkpoint("", kPath);
  must(bytes.size() > 1 || kept, "an unchanged checkpoint is read");
  if (!kept) return;
  const bool counts = storage::seal_of(kept->proven.sum, kSecret) == kept->proven.seal;
  must(bytes.size() > 1 || counts, "an unchanged checkpoint counts");
  if (!storage::complete(*kept)) return;
  const std::uint64_t state = engine::state_hash(kept->farm);
  const bool sealed_anew = !bytes.empty() && bytes.front() % 2 != 0;
  must(!counts || sealed_anew || state == kState, "one that says something else does not count");
}
