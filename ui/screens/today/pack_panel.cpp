#include "ui/screens/today/pack_panel.h"

#include "ui/screens/base/layout.h"

namespace ui {

void pack_panel(Touch& t, const Rect& rect, std::string_view title, const engine::PackList* pack) {
  if (pack == nullptr) {
    const std::string none[] = {"No label is chosen in Setup: the dose is not known."};
    return told(t, rect, title, none, Surface::Warning);
  }
  const std::string lines[] = {pack->headline};
  told(t, rect, title, lines, pack->ready() ? Surface::Good : Surface::Warning);
}

}  // namespace ui
