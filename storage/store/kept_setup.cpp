#include "storage/store/kept_setup.h"

#include "engine/farm/setups.h"

namespace storage {

KeptSetup::KeptSetup(const Store& store, engine::DeviceId tablet)
    : tablet_(tablet), setup_(engine::setup_of(store.farm(), tablet)) {}

Status KeptSetup::say_again(Store& store, const engine::Stamp& now) const {
  if (store.device() == tablet_) return {};
  const auto change = engine::all_of(setup_, store.farm().setup);
  if (!change || store.farm().setups.contains(store.device())) return {};
  return store.append(store.next(now, *change));
}

}  // namespace storage
