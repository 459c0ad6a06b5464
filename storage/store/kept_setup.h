// storage/store/kept_setup.h -- a store that goes on under a new id keeps what was set on it.
//
// What is set is told apart by tablet, and a new id is a new tablet: so it is said again there, as
// an entry of its own.
#pragma once
#include "storage/store/store.h"

namespace storage {

class KeptSetup {
 public:
  // What is set now. Take it before a merge or a mending, which may give the store a new id.
  explicit KeptSetup(const Store& store) : KeptSetup(store, store.device()) {}
  // What is set on that tablet, as far as the store knows it.
  KeptSetup(const Store& store, engine::DeviceId tablet);

  // Says it again where the store has another id by now and nothing is set under it. Ok where there
  // is nothing to say.
  engine::Status say_again(Store& store, const engine::Stamp& now) const;

 private:
  engine::DeviceId tablet_;
  engine::Setup setup_;
};

}  // namespace storage
